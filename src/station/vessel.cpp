#include "station/vessel.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"

namespace lynearm::station {

using units::Duration;
using units::Share;
using units::Volume;

Vessel::Vessel(const LaidWood& wood, const wood::Cellar& cellar, Share factor,
               const spirit::Lot& filled, const std::vector<Handling>& handlings)
    : wood_(wood), cellar_(cellar), factor_(factor) {
  const Volume all = spirit::volume(filled);
  if (!(wood.drinks < all)) {
    throw base::InputError(
        "filled", fmt::format("{:.2f} L", all.litres()),
        fmt::format("more than the {:.2f} L the wood drinks", wood.drinks.litres()));
  }
  stretches_.push_back({Duration{}, filled * (1.0 - wood.drinks / all), Volume{}});
  for (const Handling& one : handlings) handle(one);
}

Vessel::Left Vessel::at(Duration time) const {
  const auto after = std::upper_bound(stretches_.begin(), stretches_.end(), time,
                                      [](Duration t, const Stretch& s) { return t < s.from; });
  const Stretch& stretch = after == stretches_.begin() ? *after : *(after - 1);
  const Stretch then = rested(stretch, time);
  return {then.gone, spirit::volume(then.lot), spirit::strength(then.lot)};
}

Vessel::Stretch Vessel::rested(const Stretch& stretch, Duration at) const {
  if (at <= stretch.from) return stretch;
  const spirit::Lot left = rest(stretch.lot, at - stretch.from);
  return {at, left, stretch.gone + spirit::volume(stretch.lot) - spirit::volume(left)};
}

spirit::Lot Vessel::rest(const spirit::Lot& lot, Duration time) const {
  if (wood_.cask) {
    wood::Permeability oak;
    oak.water *= factor_.fraction();
    oak.ethanol *= factor_.fraction();
    return wood::rest(lot, wood_.walls, cellar_, time, oak).course.back().lot;
  }
  return wood::rest_in_glass(lot, {}, 0.0, time, wood::good_closure * factor_.fraction()).left;
}

void Vessel::handle(const Handling& one) {
  Stretch next = rested(stretches_.back(), std::max(one.at, stretches_.back().from));
  const Volume there = spirit::volume(next.lot);
  switch (one.what) {
    case Handling::What::drawn: {
      // A crumb stays, so that it keeps a strength.
      const double share = std::min(spirit::volume(one.lot) / there, 1.0 - 1e-6);
      next.lot = next.lot * (1.0 - share);
      break;
    }
    case Handling::What::poured:
      next.lot = next.lot + one.lot;
      break;
    case Handling::What::gauged:
      // What is missing has gone the way of the air, leaks and all.
      next.gone = std::max(Volume{}, next.gone + there - spirit::volume(one.lot));
      next.lot = one.lot;
      break;
  }
  stretches_.push_back(next);
}

}  // namespace lynearm::station
