#include "station/taken_up.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/error.hpp"
#include "spirit/lot.hpp"

namespace lynearm::station {
namespace {

using journal::HouseState;
using journal::LotKind;
using journal::LotName;
using journal::LotState;
using journal::LotUse;
using journal::Moment;
using units::Duration;
using units::Share;
using units::Volume;

constexpr int deepest = 100;

bool holds(const spirit::Lot& lot) { return lot.mass() > units::Mass{}; }

// From the still nothing comes over of what wood gave.
bool may_hold_wood(LotKind kind) { return kind == LotKind::spirit || kind == LotKind::bottles; }

struct Part {
  const LotState* from;
  const LotUse* use;
};
// What was poured of other lots by the entry.
std::vector<Part> parts_of(const HouseState& house, const LotState& lot,
                           const journal::Id& entry) {
  std::vector<Part> parts;
  for (const LotName& name : lot.parents) {
    const LotState* from = journal::lot_named(house, name);
    if (from == nullptr) continue;
    for (const LotUse& use : from->uses) {
      if (use.told.entry == entry && use.where != left_in_wood_and_air && holds(use.lot)) {
        parts.push_back({from, &use});
      }
    }
  }
  return parts;
}

class Least {
 public:
  explicit Least(const HouseState& house) : house_(house) {}
  Duration before(const LotState& lot) {
    if (!may_hold_wood(lot.name.kind) || deep_ > deepest) return {};
    if (const auto known = known_.find(lot.name); known != known_.end()) return known->second;
    ++deep_;
    const std::vector<Part> parts = parts_of(house_, lot, lot.told.entry);
    Duration least;
    for (std::size_t k = 0; k < parts.size(); ++k) {
      const LotState& from = *parts[k].from;
      Duration of = before(from);
      if (from.wood) of = of + std::max(Duration{}, since(lot.told.at, from.told.at));
      least = k == 0 ? of : std::min(least, of);
    }
    --deep_;
    return known_[lot.name] = least;
  }

 private:
  const HouseState& house_;
  std::map<LotName, Duration> known_;
  int deep_ = 0;
};

}  // namespace

std::vector<Handling> handlings(const LotState& lot) {
  std::vector<Handling> all;
  spirit::Lot left = lot.made;
  for (const LotUse& use : lot.uses) {
    if (use.where == left_in_wood_and_air || use.where == off_the_wood) break;
    Handling one{Handling::What::drawn,
                 use.told.at,
                 std::max(Duration{}, since(use.told.at, lot.told.at)),
                 use.told.entry,
                 left,
                 use.lot};
    left = left - use.lot;
    if (use.where == journal::topped_up) {
      one.what = Handling::What::poured;
      one.lot = use.lot * -1.0;
    } else if (use.where == "gauging") {
      one.what = Handling::What::gauged;
      one.lot = left;
    }
    if (holds(one.lot)) all.push_back(one);
  }
  return all;
}

Trace::Trace(const PlanMade& made, const HouseState& house, journal::Id batch)
    : made_(made), batch_(batch), house_(house) {}

units::Temperature Trace::resting() const {
  const auto& step = made_.pair.recipe.wood;
  return step ? step->temperature : made_.pair.kit.place.ambient;
}

const plan::WoodStep* Trace::step_of(const LotState& lot) const {
  const auto& step = made_.pair.recipe.wood;
  return step && lot.batch == batch_ ? &*step : nullptr;
}

LaidWood Trace::wood_of(const LotState& lot) const {
  return laid_wood(made_.pair.kit, step_of(lot), house_, lot);
}

std::string Trace::own_untold(const LotState& lot) const {
  return wood_untold(made_.pair.kit, step_of(lot), lot);
}

TakenUp Trace::when_made(const LotState& lot) {
  if (!may_hold_wood(lot.name.kind)) return {};
  if (const auto known = made_of_.find(lot.name); known != made_of_.end()) return known->second;
  if (deep_ > deepest) return {{}, {}, "its lots were poured together too often to follow"};
  ++deep_;
  TakenUp taken = by_parts(lot);
  --deep_;
  return made_of_[lot.name] = std::move(taken);
}

TakenUp Trace::by_parts(const LotState& lot) {
  TakenUp taken;
  const Volume whole = holds(lot.made) ? spirit::volume(lot.made) : Volume{};
  if (whole <= Volume{}) return taken;
  for (const Part& part : parts_of(house_, lot, lot.told.entry)) {
    TakenUp of = at(*part.from, lot.told.at);
    taken.extract = taken.extract + of.extract * (spirit::volume(part.use->lot) / whole);
    for (WoodBefore& one : of.before) taken.before.push_back(std::move(one));
    if (taken.unknown.empty()) taken.unknown = std::move(of.unknown);
  }
  return taken;
}

TakenUp Trace::at(const LotState& lot, Moment moment) {
  TakenUp taken = when_made(lot);
  if (!lot.wood || deep_ > deepest) return taken;
  if (const std::string untold = own_untold(lot); !untold.empty()) {
    taken.unknown =
        fmt::format("of {}, {}", lot.label.empty() ? std::string("a lot") : lot.label, untold);
    return taken;
  }
  ++deep_;
  try {
    const Duration time = since(moment, lot.told.at);
    taken.extract = lying(lot, moment).extract(time);
    if (taken.unknown.empty()) taken.unknown = poured_untold(lot);
    taken.before.push_back({*lot.wood, std::max(Duration{}, time), taken.extract});
  } catch (const base::InputError& fault) {
    taken.unknown = fault.what();
  }
  --deep_;
  return taken;
}

std::string Trace::poured_untold(const LotState& lot) const {
  const auto found = lies_.find(lot.name);
  return found == lies_.end() ? std::string{} : found->second.poured_untold;
}

TakenUp Trace::poured(const LotState& into, const Handling& handling) {
  // One lot in one pouring.
  for (const Part& part : parts_of(house_, into, handling.entry)) {
    if (part.from != &into) return at(*part.from, handling.moment);
  }
  return {};
}

const wood::Lying& Trace::lying(const LotState& lot, Moment until) {
  auto found = lies_.find(lot.name);
  if (found == lies_.end()) {
    const Share carried = when_made(lot).extract;
    LaidWood laid = wood_of(lot);
    found = lies_
                .emplace(lot.name,
                         Lies{wood::Lying(spirit::volume(lot.made), std::move(laid.woods),
                                          {resting(), spirit::strength(lot.made)}, carried),
                              handlings(lot), 0})
                .first;
  }
  // Each handling once, in order: lots that were poured into one another meet here again.
  Lies& lies = found->second;
  if (lies.fault) throw base::InputError(*lies.fault);
  while (lies.next < lies.handlings.size() && lies.handlings[lies.next].moment <= until) {
    const Handling& one = lies.handlings[lies.next++];
    if (one.what == Handling::What::drawn) {
      lies.lying.draw(one.at, spirit::volume(one.lot));
    } else if (one.what == Handling::What::poured && holds(one.before)) {
      const TakenUp its = poured(lot, one);
      if (lies.poured_untold.empty()) lies.poured_untold = its.unknown;
      try {
        lies.lying.pour(one.at, spirit::volume(one.before), spirit::volume(one.lot),
                        spirit::strength(one.before + one.lot), its.extract);
      } catch (const base::InputError& fault) {
        lies.fault = fault;
        throw;
      }
    }
  }
  return lies.lying;
}

Duration on_wood_before(const HouseState& house, const LotState& lot) {
  return Least(house).before(lot);
}

}  // namespace lynearm::station
