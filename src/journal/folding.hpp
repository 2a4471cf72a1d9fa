// One fold at work: the state so far and the lots by name. A handler a kind of body, in the
// fold_*.cpp of its stage; each returns false when what it speaks of is not there yet. For the
// sources of this room only.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "journal/standing.hpp"
#include "journal/state.hpp"

namespace lynearm::journal {

class Folding {
 public:
  explicit Folding(HouseState& house) : house_(house) {}

  /// Takes one entry. false: it must wait for another.
  /// throws     InputError for what cannot be
  bool take(const Standing& standing);

 private:
  // fold.cpp: any stage
  bool on(const BatchBegun& body);
  bool on(const BatchPlanned& body);
  bool on(const BatchClosed& body);
  bool on(const KitStated& body);
  bool on(const Note& body);
  bool on(const Struck& body);
  bool on(const StepMarked& body);
  bool on(const Foreign& body);
  // fold_wash.cpp: mash and ferment
  bool on(const MashTemperature& body);
  bool on(const MashWater& body);
  bool on(const WortDrawn& body);
  bool on(const Pitched& body);
  bool on(const FermentRead& body);
  bool on(const Racked& body);
  // fold_run.cpp: strip, spirit run and jars
  bool on(const RunBegun& body);
  bool on(const RunRead& body);
  bool on(const JarFilled& body);
  bool on(const RunEnded& body);
  bool on(const JarGauged& body);
  bool on(const JarNoted& body);
  bool on(const JarsAllotted& body);
  // fold_lots.cpp: lots, reduction, wood, bottles
  bool on(const LotBrought& body);
  bool on(const LotGauged& body);
  bool on(const LotTaken& body);
  bool on(const LotMade& body);
  bool on(const WoodFilled& body);
  bool on(const WoodSampled& body);
  bool on(const WoodEmptied& body);
  bool on(const Bottled& body);

  [[nodiscard]] Told told() const;
  /// The batch of the entry at hand.
  /// throws     InputError when it has none
  BatchState& batch();
  /// Null when there is none of that name; the pointer holds until the next is made.
  [[nodiscard]] RunState* run(const Id& id);
  [[nodiscard]] LotState* lot(const LotName& name);
  /// "hearts of Tern 8".
  [[nodiscard]] std::string labelled(std::string_view what, const Id& run_of);
  LotState& make(LotKind kind, std::string label, const spirit::Lot& lot, bool measured);
  /// Takes a volume at 20 °C out of a lot; a little more than there is (3 %, what two gaugings
  /// part) is all of it, and so is more, with a puzzle.
  spirit::Lot take_out(LotState& from, units::Volume volume, std::string where);
  [[nodiscard]] bool all_there(const std::vector<LotPart>& parts);
  void puzzle(std::string why);
  void renew_wash(BatchState& of);

  HouseState& house_;
  std::map<LotName, std::size_t> lots_;
  std::map<Id, std::pair<Id, std::size_t>> runs_;  ///< by their name: batch and place
  const Standing* standing_ = nullptr;
};

}  // namespace lynearm::journal
