// The questions at work: the rule by which one amount cannot be above another, and one file a
// stage. For the sources of this room only.
#pragma once

#include <functional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "journal/pure_volume.hpp"
#include "journal/questions.hpp"

namespace lynearm::journal {

/// Which of two was told for the earlier time; of one time, that with the earlier id.
[[nodiscard]] inline bool told_before(const Told& a, const Told& b) {
  return std::pair(a.at, a.entry) < std::pair(b.at, b.entry);
}

/// Pure alcohol in what was gauged one by one, and in what is known otherwise. Its error is
/// reckoned when it is asked for: that takes the density of each lot, and a house is asked
/// after each entry, nearly always of amounts that can be.
class Amount {
 public:
  Amount& add(const spirit::Lot& gauged);
  Amount& add(const PureVolume& known);
  [[nodiscard]] units::Volume value() const { return value_; }
  [[nodiscard]] PureVolume measured(const Glass& glass) const;

 private:
  std::vector<spirit::Lot> gauged_;
  PureVolume known_;
  units::Volume value_;
};

/// Whether `out` is above `in` by more than any honest reading of both.
[[nodiscard]] bool cannot_be(const Amount& out, const Amount& in, const Glass& glass);
/// Of one batch, or of what belongs to none, to be filled: an entry is asked about once, and
/// of what was upheld nothing. Looks into the state that it is made of.
class Asking {
 public:
  explicit Asking(const BatchState& batch) : Asking(batch.puzzles, batch.upheld) {}
  explicit Asking(const HouseState& house) : Asking(house.puzzles, house.upheld) {}
  Asking(std::vector<Puzzle> asked, const std::vector<UpheldState>& upheld);
  /// returns    false where just that was upheld: who asks of a sum goes on from there
  bool ask(const Id& entry, std::string why);
  [[nodiscard]] bool upheld(const Puzzle& asked) const { return is_upheld(upheld_, asked); }
  /// Whether anything that was asked of an entry was upheld.
  [[nodiscard]] bool answered(const Id& entry) const;
  /// What was upheld of it in words that begin and end so, whatever they said of other entries;
  /// empty where nothing was.
  [[nodiscard]] std::string_view answer(const Id& entry, std::string_view begin,
                                        std::string_view end) const;
  [[nodiscard]] std::vector<Puzzle> all() && { return std::move(asked_); }

 private:
  std::vector<Puzzle> asked_;
  std::set<Id> about_;  ///< the entries of those
  const std::vector<UpheldState>& upheld_;
};

/// What is asked with a batch's glass; of what belongs to none, with the house's.
struct Desk {
  Glass glass;
  Asking asking;
};
/// The desk of the batch of an entry; null where that is not asked about now.
using DeskOf = std::function<Desk*(const std::optional<Id>&)>;

/// What of each lot went into a charge, by the run.
using Charged = std::map<Id, std::vector<spirit::Lot>>;
[[nodiscard]] Charged charged_lots(const HouseState& house);

/// A house's lots by name and its runs in order of time: sought once for all questions. Looks
/// into the state that it is made of.
struct InOrder {
  explicit InOrder(const HouseState& house);
  [[nodiscard]] const LotState* lot(const LotName& name) const;
  /// The run that was begun last before that one; null for the first.
  [[nodiscard]] const RunState* before(const RunState& run) const;
  /// Where and when it came to be: of low wines the end of their strip, whenever they were
  /// gauged.
  [[nodiscard]] const Told& made(const LotState& lot) const;

  /// The first that was done with a lot, where several, and at least half of all, are told for
  /// times before it was made: it is its making that was told late. Else null.
  [[nodiscard]] const Told* used_before(const LotState& lot) const;
  /// Whether its end is told for a time long after anything else of it, and the pot was charged
  /// anew in between, or no run stands so long.
  [[nodiscard]] bool ended_late(const RunState& run) const {
    return ended_late_.contains(&run);
  }

  std::map<LotName, const LotState*> lots;
  /// When a run was over, by the entry of its end: that, or the last before one told late.
  std::map<Id, const Told*> ends;
  std::vector<const RunState*> runs;

 private:
  [[nodiscard]] bool is_ended_late(const RunState& run) const;

  std::set<const RunState*> ended_late_;
};

void ask_of_ferment(const BatchState& batch, Asking& asking);
void ask_of_runs(const HouseState& house, const BatchState& batch, const Charged& charged,
                 const Glass& glass, Asking& asking);
void ask_of_days(const BatchState& batch, Asking& asking);
void ask_of_hours(const InOrder& house, const BatchState& batch, Asking& asking);
void ask_of_its_time(const InOrder& house, const LotState& lot, Asking& asking);
void ask_of_parents(const InOrder& house, const LotState& lot, Asking& asking);
void ask_of_use(const InOrder& house, const LotState& lot, const LotUse& use, Asking& asking);
void ask_of_lot(const HouseState& house, const LotState& lot, const DeskOf& desk);

}  // namespace lynearm::journal
