// The glass alcoholmeter: what it shows, and what that means at the spirit's temperature.
//
// A hydrometer floats to the density around it. Its scale is true at one temperature only; at
// another the spirit has a different density and the glass a different volume (cubic
// expansion), so the reading is apparent. Leaves out surface tension and meniscus.
#pragma once

#include "spirit/density.hpp"
#include "spirit/strength.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// Cubic thermal expansion of soda-lime hydrometer glass, per kelvin: OIML R 44 (1985), 25e-6.
inline constexpr double soda_lime_expansion_per_K = 25e-6;

/// A hydrometer graduated in % by volume.
struct Alcoholmeter {
  units::Temperature reference = reference_20C;  ///< where its scale is true
  double glass_expansion_per_K = soda_lime_expansion_per_K;
};

/// True strength from what the alcoholmeter shows in spirit at `t`.
///
/// reading    the scale's figure (% by volume at its reference), 0 to 1
/// t          -20 to 40 °C
/// throws     InputError outside the ranges, or when no spirit would make it read so
/// source     OIML R 22 density, buoyancy of a glass float; checked by simulating the float
[[nodiscard]] units::MassFraction true_mass_fraction(units::VolumeStrength reading,
                                                     units::Temperature t,
                                                     const Alcoholmeter& instrument = {});

/// What the alcoholmeter would show: inverse of true_mass_fraction().
[[nodiscard]] units::VolumeStrength shown(units::MassFraction ethanol, units::Temperature t,
                                          const Alcoholmeter& instrument = {});

}  // namespace lynearm::spirit
