// The questions a reduction answers backwards: how much spirit for a wanted bottle count, how
// strong it was before, how much water is in it already. Exact mass balances, each the inverse
// of reduce() or dilute() (reduction.hpp). The water by volume: water_volume() and
// water_mass().
#pragma once

#include "spirit/density.hpp"
#include "spirit/reduction.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// Spirit to take, and the reduction that it then is.
struct SpiritNeeded {
  Lot spirit;
  Reduction reduction;  ///< its result is the wanted amount
};

/// The spirit of strength `from` that makes `wanted` of strength `to` with water.
///
/// wanted     above zero, measured at `t`
/// to         above 0, at or under `from`
/// t          -20 to 40 °C
/// throws     InputError ("volume", "to", "temperature") otherwise
/// accuracy   volume(reduction.result, t) is `wanted` to 1e-12 relative
[[nodiscard]] SpiritNeeded spirit_needed(units::Volume wanted, units::VolumeStrength to,
                                         units::VolumeStrength from,
                                         units::Temperature t = reference_20C);

/// What stood there before `water` was added. Inverse of dilute().
///
/// water      zero, or more, up to all the water in the result
/// throws     InputError ("water") when more was added than there is
[[nodiscard]] Lot before_water(const Lot& result, units::Mass water);

/// Water added to a spirit of strength `before` that is now `result`. Inverse of reduce().
///
/// before     at or above the result's strength; the result must hold ethanol
/// throws     InputError ("before", "result") otherwise
[[nodiscard]] units::Mass water_added(const Lot& result, units::VolumeStrength before);

}  // namespace lynearm::spirit
