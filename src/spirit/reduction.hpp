// Bringing a spirit down to a strength with water, and mixing lots: exact by mass, with the
// contraction that the density formula implies.
#pragma once

#include <vector>

#include "spirit/lot.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// A spirit reduced with water.
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

/// Lots mixed together.
struct Blend {
  Lot result;
  units::Volume volume_at_20C;
  units::VolumeStrength strength;
  units::Volume contraction;  ///< sum of the parts less the blend, all at 20 °C
};

/// parts      at least one, not all empty
[[nodiscard]] Blend blend(const std::vector<Lot>& parts);

}  // namespace lynearm::spirit
