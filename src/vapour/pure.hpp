// Ethanol and water alone: vapour pressure, latent heat and heat capacity of the liquid.
// Models: the DIPPR equations with the coefficients of Perry's Chemical Engineers' Handbook,
// 8th edition. Leaves out pressure's influence on the liquid; the vapour is ideal.
#pragma once

#include "units/quantity.hpp"
#include "vapour/molar.hpp"

namespace lynearm::vapour {

enum class Substance { ethanol, water };

/// The range all functions of vapour/ accept: 0 to 115 °C. (The DIPPR equations reach further.)
inline constexpr units::Temperature coldest = units::Temperature::celsius(0.0);
inline constexpr units::Temperature hottest = units::Temperature::celsius(115.0);

/// Vapour pressure of the pure substance.
///
/// t          0 to 115 °C
/// throws     InputError outside it
/// accuracy   boiling points at 101.325 kPa: water 373.168 K against 373.124 K (IAPWS-95),
///            ethanol 351.460 K against 351.39 K (CRC Handbook); tests/vapour/pure_test.cpp
/// source     Perry, 8th ed., Table 2-8: DIPPR 101
[[nodiscard]] units::Pressure vapour_pressure(Substance substance, units::Temperature t);

/// d ln(vapour pressure) / dT, per kelvin; the derivative of the same equation.
[[nodiscard]] double log_slope_per_K(Substance substance, units::Temperature t);

/// The temperature at which the pure substance boils: inverse of vapour_pressure(), put back
/// to 1e-12 of the pressure.
///
/// p          20 to 120 kPa; InputError outside
[[nodiscard]] units::Temperature boiling_point(Substance substance, units::Pressure p);

/// Heat to evaporate the pure substance at `t` (0 to 115 °C, InputError outside).
/// accuracy   at the normal boiling points water 40.80 against 40.65, ethanol 38.94 against
///            38.56 kJ/mol (CRC Handbook): 0.4 and 1.0 % high; tests/vapour/pure_test.cpp
/// source     Perry, 8th ed., Table 2-150: DIPPR 106
[[nodiscard]] MolarEnthalpy latent_heat(Substance substance, units::Temperature t);

/// Heat capacity of the liquid at `t` (0 to 115 °C, InputError outside).
/// source     Perry, 8th ed., Table 2-153: DIPPR 100
[[nodiscard]] MolarHeatCapacity liquid_heat_capacity(Substance substance, units::Temperature t);

/// Enthalpy of the liquid above the same liquid at 0 °C: the integral of its heat capacity.
[[nodiscard]] MolarEnthalpy liquid_enthalpy(Substance substance, units::Temperature t);

/// Throws InputError(field) unless 0 <= t <= 115 °C.
void require_in_range(units::Temperature t, const char* field);
/// Throws InputError(field) unless 20 <= p <= 120 kPa: sea level to some 11 km.
void require_in_range(units::Pressure p, const char* field);
/// Throws InputError(field) unless 0 <= x <= 1.
void require_in_range(units::MoleFraction x, const char* field);

}  // namespace lynearm::vapour
