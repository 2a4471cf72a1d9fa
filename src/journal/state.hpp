// The house as its journal tells it: batch by batch what was done and read, with what each
// reading truly means; and the lots of spirit, which outlive their batch. Everything here is
// computed from the entries; nothing is kept of it. Plan and forecasts stand beside it.
//
// Spirit is kept as lots (masses of ethanol and water); volumes are at 20 °C, strengths true.
// Times are the house's. Each row names the entry that told it, so a page can correct it.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "journal/entry.hpp"
#include "spirit/lot.hpp"
#include "wort/gravity.hpp"

namespace lynearm::journal {

/// Where a row comes from.
struct Told {
  Id entry;  ///< the first telling's
  Moment at;
  std::string who;
  int corrections = 0;
};

struct PlanState {
  Told told;
  std::string recipe, kit;  ///< their texts
  int earlier = 0;          ///< plans before this one
};

struct NoteState {
  Told told;
  Stage stage = Stage::ledger;
  std::string text;
  std::vector<std::string> attachments;
};

struct StepState {
  Told told;
  Stage stage = Stage::ledger;
  std::string step;
  bool done = true;
};

struct AddedState {
  Told told;
  Stage stage = Stage::mash;
  Added added;
};
struct AirState {
  Told told;
  AirRead air;
};
struct CleaningState {
  Told told;
  CopperCleaned cleaned;
};

struct MashPoint {
  Told told;
  units::Temperature temperature;
};
struct MashWaterState {
  Told told;
  units::Volume volume;
  units::Temperature temperature;
};
struct MashCheckState {
  Told told;
  std::optional<IodineColour> iodine;
  std::optional<units::SpecificGravity> gravity;  ///< true, at 20 °C
};
struct WortState {
  Told told;
  std::string from;
  units::Volume volume;            ///< at 20 °C
  units::SpecificGravity gravity;  ///< true, at 20 °C
  units::Mass extract;
};
struct MashState {
  std::vector<MashPoint> temperatures;
  std::vector<MashWaterState> waters;
  std::vector<MashCheckState> checks;
  std::vector<WortState> worts;

  [[nodiscard]] units::Mass extract() const;
};

struct PitchState {
  Told told;
  units::Volume volume;  ///< at 20 °C
  units::SpecificGravity gravity;
  units::Mass extract;
  std::string yeast;
  units::Mass mass;
  std::optional<units::Temperature> at{};  ///< of the wort, as it was told
};
struct FermentPoint {
  Told told;
  std::optional<units::SpecificGravity> gravity;  ///< true, at 20 °C
  bool by_refractometer = false;  ///< then corrected for the alcohol that the pitch implies
  std::optional<units::Temperature> temperature;
};
/// What the wash holds by its gravities: by the last one told, whether or not a forecast
/// believes it. Every page, charge and account that reckons on from the ferment reckons by
/// this.
struct WashState {
  Told told;  ///< of that gravity
  units::SpecificGravity gravity;
  units::VolumeStrength strength;
  units::Volume volume;        ///< at 20 °C: racked, or as pitched
  units::Volume pure_alcohol;  ///< in that
  /// From that gravity to the racking, where it may have fermented on since: over a day, and no
  /// gravity of a day earlier was alike. Then it holds at least this much alcohol.
  std::optional<units::Duration> unread;
  bool stood = false;  ///< a gravity of a day earlier or more was alike
};
struct RackedState {
  Told told;
  units::Volume clear;  ///< at 20 °C
  std::optional<units::Volume> lees;
};
struct FermentState {
  std::optional<PitchState> pitch;
  std::vector<FermentPoint> points;  ///< in order of time
  std::optional<RackedState> racked;
  std::optional<WashState> wash;  ///< once pitched and read
};

/// So much of a lot that went somewhere.
struct LotUse {
  Told told;
  std::string where;  ///< "charge", "sample", "blend", "bottles", "topping up"
  spirit::Lot lot;
  std::optional<Id> batch{};  ///< whose entry told it
};
/// A use that brought spirit in: its lot is below nothing.
inline constexpr std::string_view topped_up = "topped up";
struct OnWood {
  std::string in, species, toast;
  std::optional<int> staves;
  std::optional<int> used_times{};
  std::vector<StavesLaid> besides{};
};
/// What was last told to stand on the labels of a lot of bottles.
struct OnLabel {
  Told told;
  std::string name;
  units::VolumeStrength strength;  ///< as stated
  std::string names_class, rule;
};
struct InBottles {
  int bottles = 0;
  units::Volume size;
  units::VolumeStrength strength;  ///< true
  std::optional<OnLabel> label{};
};
/// made = left + the sum of its uses, to rounding.
struct LotState {
  Told told;                ///< of its making
  std::optional<Id> batch;  ///< that made it
  LotName name;
  std::string label;
  std::vector<LotName> parents;
  int generation = 0;  ///< how often oils of feints went round in it; first feints are 1
  spirit::Lot made;
  spirit::Lot left;
  bool measured = false;  ///< gauged, not only computed
  bool reckoned = false;  ///< `made` is of its parts; a gauging then stands among the uses
  bool brought = false;   ///< was there before the journal
  /// What drying a sample left, where that was told when it was gauged.
  std::optional<units::MassConcentration> residue{};
  std::vector<LotUse> uses;
  std::optional<OnWood> wood;
  std::optional<InBottles> bottles;
};

struct RunPoint {
  Told told;
  still::Reading reading;  ///< `at` from the run's nought
};
struct JarNote {
  Told told;
  std::vector<std::string> words;
  std::string text;
  std::optional<double> fault;
};
struct JarState {
  int jar = 1;
  std::optional<Told> filled;
  std::optional<units::Volume> as_filled;  ///< by its mark, as warm as it ran
  std::optional<Told> gauged;
  std::optional<spirit::Lot> lot;   ///< gauged after airing
  std::optional<spirit::Lot> left;  ///< of that, once poured from
  std::vector<JarNote> notes;
  std::optional<JarPoured> poured;
};
enum class RunStanding { running, stopped, ended };
struct RunState {
  Told told;
  RunKind kind = RunKind::spirit;
  /// Gauged; else lots and wash put in, made up with water; nothing when neither tells.
  spirit::Lot charge;
  bool charge_known = false;
  bool charge_gauged = false;   ///< its strength was read
  units::Volume charge_volume;  ///< at 20 °C
  units::Volume charge_told;  ///< at 20 °C as it was read, also where lots and wash tell more
  units::Volume put_in;       ///< of lots and wash, at 20 °C; without those not in the journal
  std::optional<units::Volume> wash;
  std::vector<LotPart> parts;
  std::optional<units::Power> power;  ///< at the start
  std::vector<RunPoint> readings;     ///< in order of time; events alternate
  std::vector<Told> before_heat;      ///< readings told for a time before it: left out
  std::map<int, JarState> jars;
  std::optional<Told> allotted;
  std::optional<Told> ended;
  std::optional<VolumeRead> collected_read;  ///< at the end, as it was read
  std::optional<spirit::Lot> collected;      ///< that, where its strength was read too
  std::optional<units::Volume> left;         ///< in the pot
  std::optional<spirit::Lot> left_lot;       ///< that, where its strength was read
  bool stopped = false;                      ///< the heat is off, by its last event
  RunStanding standing = RunStanding::running;
};

/// An entry that does not fit the others: it speaks of what is not there, or of what cannot be.
/// Kept and shown, never dropped.
struct Puzzle {
  Id entry;
  std::string why;
  bool counts = false;  ///< as it was told, all the same: it may be so, and be upheld
};
struct UpheldState {
  Told told;
  Upheld upheld;
};

struct BatchState {
  Id id;
  std::string name, remark;
  bool invented = false;
  std::optional<Told> begun, closed;
  std::optional<PlanState> plan;
  std::vector<AddedState> additions;
  std::vector<AirState> airs;
  std::vector<StepState> steps;  ///< in order of time; a step marked again stands again
  MashState mash;
  FermentState ferment;
  std::vector<RunState> runs;
  std::vector<NoteState> notes;
  std::vector<Puzzle> puzzles;
  std::vector<UpheldState> upheld;
  std::size_t entries = 0;  ///< that stand
  std::size_t struck = 0;
  Moment first, last;  ///< of what happened
};

struct HouseState {
  std::optional<PlanState> kit;      ///< the kit of the house; its recipe is empty
  std::map<Id, BatchState> batches;  ///< also one that was never begun, if entries name it
  std::vector<LotState> lots;        ///< in the order of their making
  std::vector<AirState> airs;        ///< of no batch
  /// Of any batch or none: the run after one is the first on clean copper.
  std::vector<CleaningState> cleanings;
  std::vector<NoteState> notes;     ///< of no batch
  std::vector<Puzzle> puzzles;      ///< of no batch
  std::vector<UpheldState> upheld;  ///< of no batch
};

/// As it was gauged when it was made, where `made` is reckoned; else nothing.
[[nodiscard]] std::optional<spirit::Lot> gauged_when_made(const LotState& lot);
/// What was poured into it out of other lots when it was made, one by one; without water. Empty
/// where `made` is not reckoned.
[[nodiscard]] std::vector<spirit::Lot> poured_in(const HouseState& state, const LotState& lot);

/// The lot of that name, or null.
[[nodiscard]] const LotState* lot_named(const HouseState& state, const LotName& name);
/// The run begun by that entry, or null.
[[nodiscard]] const RunState* run_named(const BatchState& state, const Id& entry);

}  // namespace lynearm::journal
