// What the server answers a page that asked it to compute or to keep something. The shapes are
// those of web/api/openapi.yaml.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "journal/entry.hpp"
#include "journal/glass.hpp"
#include "mash/correction.hpp"
#include "plan/recipe.hpp"
#include "spirit/check_reading.hpp"
#include "spirit/gauging.hpp"
#include "spirit/lot.hpp"
#include "spirit/measured_reduction.hpp"
#include "spirit/oak_tea.hpp"
#include "still/allotment.hpp"
#include "still/propose_cut.hpp"
#include "units/quantity.hpp"
#include "wire/ask.hpp"

namespace lynearm::wire {

[[nodiscard]] std::string now_json(journal::Moment now);

struct KeptRow {
  journal::Id id;
  std::int64_t sequence = 0;
  bool already = false;
};
[[nodiscard]] std::string kept_json(const std::vector<KeptRow>& kept, journal::Moment now);

[[nodiscard]] std::string entries_json(const std::vector<journal::Entry>& entries);

/// The place of the journal's last entry, for news.
[[nodiscard]] std::string sequence_json(std::int64_t sequence);

/// name       of an attachment that was kept: the SHA-256 of what it holds
[[nodiscard]] std::string attachment_json(const std::string& name);

/// Each with what it was asked, so that the answer carries its reasons.
[[nodiscard]] std::string gauged_json(const GaugeAsked& asked, const spirit::Gauging& gauging,
                                      const std::optional<spirit::Lot>& lot);

struct GravityFound {
  units::SpecificGravity gravity;
  units::Plato plato;
  std::optional<units::VolumeStrength> strength;
};
[[nodiscard]] std::string gravity_json(const GravityAsked& asked, const GravityFound& found);

/// A vessel after mixing, what mends it, and what the difference from the plan would come of.
/// Where something is dissolved the lots are told by `obscured`, solids and all.
struct ReductionCheck {
  spirit::Lot found;
  spirit::Correction correction;
  spirit::Mistake mistake;
  struct Obscured {
    spirit::ObscuredLot found, spirit, result;
  };
  std::optional<Obscured> obscured;
};
struct ReductionMade {
  spirit::Lot spirit;  ///< that goes in
  spirit::MeasuredReduction measured;
  std::optional<spirit::ObscuredReduction> obscured;  ///< where something is dissolved
  spirit::Lot besides;  ///< weaker spirit or tea, without what is dissolved in it
  std::optional<ReductionCheck> check;
};
[[nodiscard]] std::string reduced_json(const ReduceAsked& asked, const ReductionMade& made);
[[nodiscard]] std::string blend_json(const std::vector<PartAsked>& parts,
                                     const spirit::Lot& blend);

/// The gauged jars of a run as cut planning takes them, loads filled in, and their numbers in
/// the same order.
struct ShelfJars {
  std::vector<still::Jar> jars;
  std::vector<int> numbers;
  units::Share alcohol_left;  ///< of the charge's, in the pot when the last jar ended
  bool left_assumed = false;  ///< the usual share: the jars' strengths did not tell it
  /// Where foreshots and heads end by the plan, counted from the first drop, where it counts
  /// so.
  std::optional<units::Volume> foreshots_end{}, heads_end{};
  /// Left out, by number: gauged at what no still gives, so the glass was misread.
  std::map<int, units::VolumeStrength> misread{};
  journal::Glass glass{};  ///< that they were gauged on
};

/// An allotment of those jars and what it gives.
struct PouredJars {
  still::Allotment allotment;
  still::Outcome outcome;
};
[[nodiscard]] std::string poured_json(const ShelfJars& shelf, const PouredJars& poured);
/// proposal   of the shelf's jars
[[nodiscard]] std::string cuts_json(const ShelfJars& shelf, const still::Purpose& purpose,
                                    const still::CutProposal& proposal);

/// A key of a recipe's text to write, or to take out where it has no value.
struct KeyChange {
  std::string path;
  std::optional<std::string> value;
};
/// says       what was changed, for people
/// factor     on every amount
[[nodiscard]] std::string solved_json(const std::string& says, double factor,
                                      const std::vector<KeyChange>& changes);

/// Where the mash stands, by the step in hand.
enum class MashPlace {
  milling,
  strike,  ///< water for the malts, not yet in its vessel or being heated in it
  cooking,
  moving,
  dough_in,  ///< liquor or cooked grain that waits for the malts
  rest,
  draining,
  sparging,
  wort,      ///< cooling
  pitching,  ///< the mash is done, the yeast is not in
  over,
};
/// A length of time with its 80 % band.
struct Span {
  units::Duration middle, least, most;
};
/// What a temperature read on mash day asks for; what is absent is not asked there.
struct MashAdvice {
  MashPlace at = MashPlace::over;
  std::string step;  ///< in hand, by the plan's words; empty after the last
  std::optional<units::Temperature> target;
  mash::Correction correction;
  units::Temperature water;                       ///< of the correction
  std::optional<units::Temperature> target_then;  ///< with the water in: where the malts go in
  std::optional<units::Temperature> lands;        ///< it was read in the pot
  std::optional<Span> lid_on, lid_off, with_coil, heating;
  std::optional<units::Duration> clock;  ///< to the target, by the way the plan takes
  std::optional<plan::CoolBy> by;        ///< that way, when it cools
  std::optional<units::Volume> of;       ///< sparge water that is still to be given
  std::optional<units::Duration> beta_halves, alpha_halves;  ///< in a mash too hot
  std::optional<units::Temperature> pitch, topped_up;
  std::optional<units::Volume> top_up_cold, top_up_hot;
};
[[nodiscard]] std::string mash_correction_json(const MashAdvice& advice);

/// A row of a table to choose from.
struct Choice {
  std::string id, name, kind;
  std::optional<units::Share> extract, moisture;
};
struct Choices {
  std::vector<Choice> ingredients, yeasts, species, toasts;
};
[[nodiscard]] std::string tables_json(const Choices& choices);

struct Example {
  std::string name, remark, recipe, kit;
};
[[nodiscard]] std::string examples_json(const std::vector<Example>& examples);

}  // namespace lynearm::wire
