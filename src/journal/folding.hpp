// One fold at work: the state so far and the lots by name. A handler a kind of body, in the
// fold_*.cpp of its stage; each tells what it has to wait for when what it speaks of is not
// there yet, and changes nothing when it waits or throws. For the sources of this room only.
#pragma once

#include <compare>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "journal/standing.hpp"
#include "journal/state.hpp"

namespace lynearm::journal {

/// What an entry may have to wait for.
struct Need {
  enum class What { entry, gauged_jar, pitch };
  Id id;  ///< of that entry, of the jar's run, of the batch
  What what = What::entry;
  int jar = 0;

  friend auto operator<=>(const Need&, const Need&) = default;
  friend bool operator==(const Need&, const Need&) = default;
};
/// Nothing: the entry is taken.
using Waits = std::optional<Need>;
inline constexpr std::nullopt_t taken = std::nullopt;

/// So many times what is there may be told of all of it: two gaugings part by so much. Common
/// practice, no source.
inline constexpr double two_gaugings = 1.03;

/// What cannot be, in a sentence of its own: it speaks of no field that anybody typed into.
struct CannotBe {
  std::string why;
};

class Folding {
 public:
  explicit Folding(HouseState& house) : house_(house) {}

  /// Takes one entry, or tells what it waits for.
  /// throws     CannotBe, or InputError for a figure that cannot be, NotConverged where wort/
  /// does
  Waits take(const Standing& standing);
  /// Whether a run is taken whose lots are not there, rather than made to wait for them.
  void let_lots_miss(bool may) { lots_may_miss_ = may; }
  /// What the last entry taken was the first to tell; for those that wait for it.
  [[nodiscard]] const std::vector<Need>& told_now() const { return told_now_; }
  /// Puts in order what had to wait for the end.
  void finish();
  void puzzle(const Standing& standing, std::string why, bool counts = false);

 private:
  // fold.cpp: any stage
  Waits on(const BatchBegun& body);
  Waits on(const BatchPlanned& body);
  Waits on(const BatchClosed& body);
  Waits on(const KitStated& body);
  Waits on(const Note& body);
  Waits on(const Struck& body);
  Waits on(const StepMarked& body);
  Waits on(const Added& body);
  Waits on(const AirRead& body);
  Waits on(const CopperCleaned& body);
  Waits on(const Upheld& body);
  Waits on(const Foreign& body);
  // fold_wash.cpp: mash and ferment
  Waits on(const MashTemperature& body);
  Waits on(const MashWater& body);
  Waits on(const MashChecked& body);
  Waits on(const WortDrawn& body);
  Waits on(const Pitched& body);
  Waits on(const FermentRead& body);
  Waits on(const Racked& body);
  // fold_run.cpp: strip, spirit run and jars
  Waits on(const RunBegun& body);
  Waits on(const RunRead& body);
  Waits on(const JarFilled& body);
  Waits on(const RunEnded& body);
  Waits on(const JarGauged& body);
  Waits on(const JarNoted& body);
  Waits on(const JarsAllotted& body);
  // fold_lots.cpp: lots, reduction, wood, bottles
  Waits on(const LotBrought& body);
  Waits on(const LotGauged& body);
  Waits on(const LotTaken& body);
  Waits on(const LotMade& body);
  Waits on(const WoodFilled& body);
  Waits on(const WoodSampled& body);
  Waits on(const WoodEmptied& body);
  Waits on(const Bottled& body);
  Waits on(const WoodTopped& body);
  Waits on(const Labelled& body);

  [[nodiscard]] Told told() const;
  /// The batch of the entry at hand.
  /// throws     InputError when it has none
  BatchState& batch();
  /// Null when there is none of that name; the pointer holds until the next is made.
  /// throws     InputError when it is of another batch than the entry at hand
  [[nodiscard]] RunState* run(const Id& id);
  [[nodiscard]] LotState* lot(const LotName& name);
  static Waits waits_for(const Id& entry) { return Need{entry}; }
  /// For the first of them that is not there.
  [[nodiscard]] Waits missing(const std::vector<LotPart>& parts);
  /// The oftenest that oils of these went round.
  [[nodiscard]] int generation_of(const std::vector<LotPart>& parts);
  /// "hearts of Tern 8".
  [[nodiscard]] std::string labelled(std::string_view what, const Id& run_of,
                                     std::string_view joined = "of");
  /// The reference holds until the next is made. `by` is the entry that it goes by; none: the
  /// one at hand.
  LotState& make(LotKind kind, std::string label, const spirit::Lot& lot, bool measured,
                 const std::optional<Id>& by = std::nullopt);
  /// All that came over in a strip, of which the low wines are made; they go by its end.
  void make_low_wines(const RunState& run, const spirit::Lot& all);
  /// Low wines of a strip that was ended before they were gauged: made by this gauging.
  bool gauges_a_strip(const LotGauged& body);
  /// A use that the entry at hand tells.
  [[nodiscard]] LotUse use(std::string where, const spirit::Lot& of) const;
  /// Takes a volume at 20 °C out of a lot; more than there is is all of it, with a puzzle where
  /// it is more than two gaugings part.
  spirit::Lot take_out(LotState& from, units::Volume volume, std::string where);
  void puzzle(std::string why) { puzzle(*standing_, std::move(why)); }
  /// Of what counts all the same, and may be upheld.
  void puzzle_that_counts(std::string why) { puzzle(*standing_, std::move(why), true); }
  /// What `answer` gives; nothing, and a puzzle, when it throws for what was read.
  template <class F>
  auto or_puzzle(const F& answer) -> std::optional<decltype(answer())> {
    try {
      return answer();
    } catch (const base::InputError& error) {
      puzzle(base::sentence(error.faults().front()));
    } catch (const base::NotConverged& error) {
      puzzle(error.what());
    }
    return std::nullopt;
  }
  void renew_wash(BatchState& of);

  struct GravityAt {
    Told told;
    units::SpecificGravity gravity;
  };

  HouseState& house_;
  std::map<LotName, std::size_t> lots_;
  std::map<Id, std::pair<Id, std::size_t>> runs_;  ///< by their name: batch and place
  std::map<Id, GravityAt> last_gravities_;         ///< by batch
  std::vector<Need> told_now_;
  bool lots_may_miss_ = false;
  const Standing* standing_ = nullptr;
};

}  // namespace lynearm::journal
