// Bringing a spirit down to a strength with water, and mixing lots: exact by mass, with the
// contraction that the density formula implies.
#pragma once

#include <vector>

#include "spirit/lot.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// A spirit reduced with water, with every volume at 20 °C. measured_reduction.hpp tells the
/// volumes at other temperatures.
struct Reduction {
  units::Mass water;           ///< to add
  units::Volume water_at_20C;  ///< the same by volume at 20 °C
  Lot result;
  units::Volume volume_at_20C;  ///< of the result
  units::Volume contraction;    ///< spirit plus water less result, all at 20 °C
};

/// Water that brings `spirit` to `to`.
///
/// to         above 0, at or under the spirit's own strength (equal strength adds no water)
/// throws     InputError ("to") otherwise: water cannot strengthen a spirit
/// accuracy   mass and pure alcohol conserved to rounding
/// source     mass balance; densities OIML R 22
[[nodiscard]] Reduction reduce(const Lot& spirit, units::VolumeStrength to);

/// What comes of adding `water` to `spirit`: the way back from reduce().
///
/// spirit     any lot, also empty or of water alone
/// water      zero or more
/// throws     InputError ("spirit", "water") for a mass below zero or not finite
[[nodiscard]] Reduction dilute(const Lot& spirit, units::Mass water);

/// Lots mixed together.
struct Blend {
  Lot result;
  units::Volume volume_at_20C;
  units::VolumeStrength strength;
  units::Volume contraction;  ///< sum of the parts less the blend, all at 20 °C
};

/// The blend of `parts`, in whatever order.
///
/// parts      at least one; empty ones add nothing
/// throws     InputError ("part") when there is none
/// accuracy   mass and pure alcohol are sums, conserved to rounding
[[nodiscard]] Blend blend(const std::vector<Lot>& parts);

}  // namespace lynearm::spirit
