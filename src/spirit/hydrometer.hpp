// The glass hydrometer: what it shows, and what that means at the spirit's temperature.
//
// A hydrometer floats to the density around it. Its scale is true at one temperature only; at
// another the spirit has a different density and the glass a different volume (cubic
// expansion), so the reading is apparent. Leaves out surface tension and meniscus: read where
// the level surface cuts the stem, as the scale was made for.
#pragma once

#include <optional>

#include "spirit/density.hpp"
#include "spirit/reading.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// Cubic thermal expansion of soda-lime hydrometer glass, per kelvin: OIML R 44 (1985), 25e-6.
inline constexpr double soda_lime_expansion_per_K = 25e-6;

/// The float itself; its scale comes with each reading.
struct Hydrometer {
  std::optional<units::Temperature> reference;  ///< where it is true; empty: its scale's own
  double glass_expansion_per_K = soda_lime_expansion_per_K;
};

/// Density of the liquid in which the glass shows `reading` at `t`, whatever the liquid is.
///
/// t          -20 to 40 °C
/// throws     InputError ("at", "reading") outside the ranges, or when no spirit is meant by
///            the mark
[[nodiscard]] units::Density density_shown(const Reading& reading, units::Temperature t,
                                           const Hydrometer& hydrometer = {});

/// True strength from what the hydrometer shows in spirit at `t`.
///
/// reading    within its scale
/// t          -20 to 40 °C
/// throws     InputError ("at", "reading") outside the ranges, or when no spirit would make it
///            read so: the message tells what water and pure ethanol would show
/// accuracy   27 CFR 30.23 (Gauging Manual Table 1), seven points: within 0.05 proof
///            (tests/published/cfr_27_30_test.cpp)
/// source     OIML R 22 density, buoyancy of a glass float; checked by simulating the float
[[nodiscard]] units::MassFraction true_mass_fraction(const Reading& reading,
                                                     units::Temperature t,
                                                     const Hydrometer& hydrometer = {});

/// What the hydrometer would show: inverse of true_mass_fraction(). Past the ends of the scale
/// (cold water, hot pure ethanol) the scale is extended in proportion to density.
[[nodiscard]] Reading shown(units::MassFraction ethanol, units::Temperature t, Scale scale,
                            const Hydrometer& hydrometer = {});

}  // namespace lynearm::spirit
