// Density of ethanol and water against mass fraction and temperature, and its inverse: the
// root of all gauging. Model: the general formula of OIML R 22 (1973). Leaves out dissolved
// extract (see the obscuration of a wooded spirit) and pressure.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::spirit {

/// The range of the OIML R 22 formula.
inline constexpr units::Temperature coldest = units::Temperature::celsius(-20.0);
inline constexpr units::Temperature warmest = units::Temperature::celsius(40.0);
inline constexpr units::Temperature reference_20C = units::Temperature::celsius(20.0);
/// 60 °F, the reference of the United States gauging rules.
inline constexpr units::Temperature reference_60F = units::Temperature::fahrenheit(60.0);

/// Density of a mixture of ethanol and water.
///
/// ethanol    share by mass, 0 to 1
/// t          -20 to 40 °C
/// returns    density at normal air pressure
/// throws     InputError outside either range; it does not extrapolate
/// accuracy   reproduces every row at hand of OIML R 22 Table I to its last printed digit
///            (tests/published/oiml_r22_test.cpp)
/// source     OIML R 22 (1973), general formula and its coefficients
[[nodiscard]] units::Density density(units::MassFraction ethanol, units::Temperature t);

/// The mixture whose density at `t` is `density`. Inverse of density(): Newton's iteration
/// inside a bracket, put back to within 1e-9 kg/m³.
///
/// throws     InputError when no mixture is as light or as heavy at that temperature
[[nodiscard]] units::MassFraction mass_fraction_at(units::Density density,
                                                   units::Temperature t);

}  // namespace lynearm::spirit
