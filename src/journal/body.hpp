// What an entry says, one type a kind. A body holds what was seen, read, done or decided, and
// nothing that can be computed from it. What an entry makes (a run, a lot) goes by the entry's
// own id, so nothing has to hand out numbers and two phones never meet in one name.
//
// Volumes of spirit stand as they were measured, with their temperature; what they mean at
// 20 °C is the fold's work. A body never changes its meaning: a new one is a new version.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "journal/id.hpp"
#include "spirit/reading.hpp"
#include "still/reading.hpp"
#include "units/quantity.hpp"

namespace lynearm::journal {

inline constexpr units::Temperature at_20C = units::Temperature::celsius(20.0);

// ---- what is read ---------------------------------------------------------------------------

/// Scales on which a wort or wash is read. Brix is a refractometer's, the others a
/// hydrometer's.
enum class GravityScale { specific_gravity, plato, brix };

/// A wort or wash as the instrument shows it, at its temperature.
struct GravityRead {
  double figure = 1.0;
  GravityScale scale = GravityScale::specific_gravity;
  units::Temperature at = at_20C;
  friend bool operator==(const GravityRead&, const GravityRead&) = default;
};

/// A spirit as its alcoholmeter shows it, at its temperature.
struct StrengthRead {
  spirit::Reading reading;
  units::Temperature at = at_20C;
  friend bool operator==(const StrengthRead&, const StrengthRead&) = default;
};

/// A volume read at a mark, at its temperature.
struct VolumeRead {
  units::Volume volume;
  units::Temperature at = at_20C;
  friend bool operator==(const VolumeRead&, const VolumeRead&) = default;
};

// ---- any stage ------------------------------------------------------------------------------

/// A batch is begun; its id stands in the entry.
struct BatchBegun {
  std::string name;
  std::string remark;
  bool invented = false;  ///< a demonstration: shown as such everywhere
  friend bool operator==(const BatchBegun&, const BatchBegun&) = default;
};
/// The plan from here on: the recipe's and the kit's text, as their readers take them.
struct BatchPlanned {
  std::string recipe, kit;
  friend bool operator==(const BatchPlanned&, const BatchPlanned&) = default;
};
struct BatchClosed {
  friend bool operator==(const BatchClosed&, const BatchClosed&) = default;
};
/// The kit of the house; belongs to no batch.
struct KitStated {
  std::string kit;
  friend bool operator==(const KitStated&, const KitStated&) = default;
};
/// Words, and files by the SHA-256 of their content.
struct Note {
  std::string text;
  std::vector<std::string> attachments;  ///< 64 hexadecimal digits each
  friend bool operator==(const Note&, const Note&) = default;
};
/// The entry that this one corrects never happened. Only as a correction.
struct Struck {
  std::string reason;
  friend bool operator==(const Struck&, const Struck&) = default;
};
/// An entry that the house asks about is so, as it was told: one pitch in two fermenters, a
/// jar poured into another. Answers that question alone: one of other words or figures is
/// asked again.
struct Upheld {
  Id entry;           ///< asked about; of a correction, the first telling's
  std::string asked;  ///< Puzzle::why, as the house put it
  std::string reason;
  friend bool operator==(const Upheld&, const Upheld&) = default;
};
/// A step of the day's order is begun or done; `step` is the plan's own sentence.
struct StepMarked {
  std::string step;
  bool done = true;
  friend bool operator==(const StepMarked&, const StepMarked&) = default;
};

/// Something put into mash or ferment: malt, yeast food, acid, backset. One amount at least.
struct Added {
  std::string what;
  std::optional<units::Mass> mass;
  std::optional<units::Volume> volume;
  friend bool operator==(const Added&, const Added&) = default;
};
/// The day's air at the still: a barometer there, or a thermometer in boiling water. One at
/// least.
struct AirRead {
  std::optional<units::Pressure> pressure;          ///< at the still, not reduced to the sea
  std::optional<units::Temperature> boiling_water;  ///< as the thermometer shows it
  friend bool operator==(const AirRead&, const AirRead&) = default;
};
struct CopperCleaned {
  std::string what;  ///< "spirit still", "condenser"
  std::string with;  ///< "citric acid"
  std::string remark;
  friend bool operator==(const CopperCleaned&, const CopperCleaned&) = default;
};

// ---- mash -----------------------------------------------------------------------------------

struct MashTemperature {
  units::Temperature temperature;
  friend bool operator==(const MashTemperature&, const MashTemperature&) = default;
};
/// Water stirred in, hot or cold.
struct MashWater {
  units::Volume volume;
  units::Temperature temperature;
  friend bool operator==(const MashWater&, const MashWater&) = default;
};
/// Wort taken off: the first runnings, a sparge, or what was made apart of sugar.
struct WortDrawn {
  std::string from;  ///< "first runnings", "sparge 1", "sugar"
  VolumeRead volume;
  GravityRead gravity;
  friend bool operator==(const WortDrawn&, const WortDrawn&) = default;
};
/// What a drop of iodine shows on husk-free liquor.
enum class IodineColour { unchanged, reddish, blue };
/// Is it converted: iodine, the gravity of the liquor, or both.
struct MashChecked {
  std::optional<IodineColour> iodine;
  std::optional<GravityRead> gravity;
  friend bool operator==(const MashChecked&, const MashChecked&) = default;
};

// ---- ferment --------------------------------------------------------------------------------

struct Pitched {
  VolumeRead volume;
  GravityRead gravity;
  std::string yeast;
  units::Mass mass;
  friend bool operator==(const Pitched&, const Pitched&) = default;
};
/// What was read of the ferment: one at least.
struct FermentRead {
  std::optional<GravityRead> gravity;
  std::optional<units::Temperature> temperature;  ///< of the wash
  friend bool operator==(const FermentRead&, const FermentRead&) = default;
};
/// Drawn off its lees, ready for the still.
struct Racked {
  VolumeRead clear;
  std::optional<units::Volume> lees;
  friend bool operator==(const Racked&, const Racked&) = default;
};

// ---- lots -----------------------------------------------------------------------------------

enum class LotKind { low_wines, foreshots, feints, hearts, apart, spirit, bottles };

/// A lot: what one entry made, of one kind.
struct LotName {
  Id entry;
  LotKind kind = LotKind::spirit;
  friend auto operator<=>(const LotName&, const LotName&) = default;
  friend bool operator==(const LotName&, const LotName&) = default;
};
/// So much of a lot, at 20 °C.
struct LotPart {
  LotName lot;
  units::Volume volume;
  friend bool operator==(const LotPart&, const LotPart&) = default;
};
/// Spirit that comes into the journal from outside it: feints from before, a lot bought.
struct LotBrought {
  std::string name;
  LotKind kind = LotKind::feints;
  VolumeRead volume;
  StrengthRead strength;
  friend bool operator==(const LotBrought&, const LotBrought&) = default;
};
/// A lot gauged anew: what there is of it, from here on.
struct LotGauged {
  LotName lot;
  VolumeRead volume;
  StrengthRead strength;
  friend bool operator==(const LotGauged&, const LotGauged&) = default;
};
/// Why some of a lot is gone.
enum class Gone { sample, tasted, spilt, destroyed, given, other };
struct LotTaken {
  LotName lot;
  units::Volume volume;  ///< at 20 °C
  Gone gone = Gone::sample;
  std::string reason;
  friend bool operator==(const LotTaken&, const LotTaken&) = default;
};

// ---- strip and spirit run -------------------------------------------------------------------

enum class RunKind { strip, spirit };

/// A charge is in the pot and the heat is on: this entry's time is the run's nought, its id the
/// run's name.
struct RunBegun {
  RunKind kind = RunKind::spirit;
  VolumeRead charge;                     ///< as filled
  std::optional<StrengthRead> strength;  ///< gauged; else by its parts or the plan
  std::vector<LotPart> parts;            ///< lots put in
  std::optional<units::Volume> wash;     ///< of the batch's own wash put in, at 20 °C
  std::optional<units::Power> power;     ///< drawn from the start
  friend bool operator==(const RunBegun&, const RunBegun&) = default;
};
/// What was read beside the still. `reading.at` and `.line` mean nothing here: the entry's time
/// counts, from the run's nought.
struct RunRead {
  Id run;
  still::Reading reading;
  friend bool operator==(const RunRead&, const RunRead&) = default;
};
/// A jar is full and taken away.
struct JarFilled {
  Id run;
  int jar = 1;
  std::optional<units::Volume> volume;  ///< by its mark, as warm as it ran
  friend bool operator==(const JarFilled&, const JarFilled&) = default;
};
struct RunEnded {
  Id run;
  std::optional<VolumeRead> collected;   ///< all that came over; strip: the low wines
  std::optional<StrengthRead> strength;  ///< of all of it together
  std::optional<units::Volume> left;     ///< in the pot
  std::optional<StrengthRead> left_strength;
  friend bool operator==(const RunEnded&, const RunEnded&) = default;
};

// ---- jars -----------------------------------------------------------------------------------

/// A jar gauged after airing.
struct JarGauged {
  Id run;
  int jar = 1;
  VolumeRead volume;
  StrengthRead strength;
  friend bool operator==(const JarGauged&, const JarGauged&) = default;
};
struct JarNoted {
  Id run;
  int jar = 1;
  std::vector<std::string> words;  ///< of the house's list
  std::string text;
  std::optional<double> fault;  ///< 0 nothing found, to 10 spoiled
  friend bool operator==(const JarNoted&, const JarNoted&) = default;
};
/// One jar's share of each, at 20 °C; together at most the jar.
struct JarPoured {
  int jar = 1;
  units::Volume foreshots, hearts, feints, apart;
  friend bool operator==(const JarPoured&, const JarPoured&) = default;
};
/// The cut: jars poured together into lots of this entry's id.
struct JarsAllotted {
  Id run;
  std::vector<JarPoured> pours;
  friend bool operator==(const JarsAllotted&, const JarsAllotted&) = default;
};

// ---- reduce, wood, bottle -------------------------------------------------------------------

/// Lots poured together, water among them: makes a lot of spirit.
struct LotMade {
  std::string name;
  std::vector<LotPart> parts;
  units::Mass water;
  std::optional<VolumeRead> volume;      ///< measured after
  std::optional<StrengthRead> strength;  ///< measured after
  /// What drying a sample of it leaves: an alcoholmeter reads that much low.
  std::optional<units::MassConcentration> residue = std::nullopt;
  friend bool operator==(const LotMade&, const LotMade&) = default;
};
/// Staves laid into the same vessel as other wood.
struct StavesLaid {
  int staves = 1;
  std::string species, toast;
  std::optional<int> used_times{};
  friend bool operator==(const StavesLaid&, const StavesLaid&) = default;
};
/// A lot goes onto wood: into a cask, or with staves.
struct WoodFilled {
  LotPart part;
  std::string in;  ///< a cask's name, or "staves"
  std::string species, toast;
  std::optional<int> staves;
  std::optional<int> used_times{};    ///< that this wood lay in spirit before; 0: new
  std::vector<StavesLaid> besides{};  ///< laid in together with it
  friend bool operator==(const WoodFilled&, const WoodFilled&) = default;
};
struct WoodSampled {
  LotName lot;           ///< as WoodFilled made it
  units::Volume volume;  ///< taken, at 20 °C
  std::vector<std::string> words;
  std::string text;
  friend bool operator==(const WoodSampled&, const WoodSampled&) = default;
};
/// Spirit of another lot poured after what is on wood, to fill what it lost.
struct WoodTopped {
  LotName lot;  ///< as WoodFilled made it
  LotPart part;
  friend bool operator==(const WoodTopped&, const WoodTopped&) = default;
};
/// Off the wood: makes a lot of what is left.
struct WoodEmptied {
  LotName lot;
  VolumeRead volume;
  StrengthRead strength;
  friend bool operator==(const WoodEmptied&, const WoodEmptied&) = default;
};
struct Bottled {
  LotPart part;
  int bottles = 0;
  units::Volume size;
  units::VolumeStrength strength;  ///< true
  /// What drying a sample of it left, where `strength` is corrected for that.
  std::optional<units::MassConcentration> residue = std::nullopt;
  friend bool operator==(const Bottled&, const Bottled&) = default;
};

/// What is printed on the labels of a lot of bottles.
struct Labelled {
  LotName lot;  ///< as Bottled made it
  std::string name;
  units::VolumeStrength strength;  ///< as it is stated, which may be off the true one
  std::string names_class;         ///< legal class that is named, in its words; else empty
  std::string rule;                ///< of that class, by its id in the tables; else empty
  friend bool operator==(const Labelled&, const Labelled&) = default;
};

/// A kind that this program does not know (a newer one wrote it): kept and passed on as it
/// came, without effect.
struct Foreign {
  std::string kind;
  int version = 1;
  std::string text;  ///< its body as JSON
  friend bool operator==(const Foreign&, const Foreign&) = default;
};

using Body = std::variant<BatchBegun, BatchPlanned, BatchClosed, KitStated, Note, Struck,
                          StepMarked, Added, AirRead, CopperCleaned, MashTemperature, MashWater,
                          MashChecked, WortDrawn, Pitched, FermentRead, Racked, LotBrought,
                          LotGauged, LotTaken, RunBegun, RunRead, JarFilled, RunEnded,
                          JarGauged, JarNoted, JarsAllotted, LotMade, WoodFilled, WoodSampled,
                          WoodEmptied, Bottled, WoodTopped, Labelled, Upheld, Foreign>;

}  // namespace lynearm::journal
