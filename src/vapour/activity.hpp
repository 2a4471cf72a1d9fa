// How ethanol and water in one liquid hold each other back: activity coefficients by the
// five-parameter NRTL equation, and the heat of mixing by its own correlation. The two are
// separate fits: the NRTL parameters were made for boiling, and the heat of mixing that can
// be derived from them has the wrong size (tests/identity/vapour_consistency_test.cpp).
#pragma once

#include "units/quantity.hpp"
#include "vapour/molar.hpp"

namespace lynearm::vapour {

/// Activity over mole fraction, of each in the liquid.
struct ActivityCoefficients {
  double ethanol = 1.0;
  double water = 1.0;
};

/// Activity coefficients of ethanol and water.
///
/// ethanol    mole fraction in the liquid, 0 to 1
/// t          0 to 115 °C
/// throws     InputError outside
/// accuracy   through the bubble points: see equilibrium.hpp. Used below 50 °C for flash points
///            only, where it is an extrapolation of the boiling data.
/// source     NRTL of Renon and Prausnitz with tau = a + b/T: a12 -0.801, b12 246.2 K,
///            a21 3.458, b21 -586.1 K, alpha 0.3 (values of common process-simulator databanks)
[[nodiscard]] ActivityCoefficients activity_coefficients(units::MoleFraction ethanol,
                                                         units::Temperature t);

/// d ln(gamma) / dx of each, x the mole fraction of ethanol, at constant temperature.
struct ActivitySlopes {
  double ethanol = 0.0;
  double water = 0.0;
};
[[nodiscard]] ActivitySlopes activity_slopes(units::MoleFraction ethanol, units::Temperature t);

/// The range of the heat-of-mixing correlation.
inline constexpr units::Temperature coldest_mixing = units::Temperature::kelvins(298.15);
inline constexpr units::Temperature hottest_mixing = units::Temperature::kelvins(383.15);

/// Enthalpy of mixing: of the mixture less that of the unmixed liquids at the same temperature.
/// Negative where mixing warms.
///
/// t          25 to 110 °C
/// throws     InputError outside; it does not extrapolate
/// accuracy   not checked against raw calorimetry; values recalled for 25 °C are about
///            -780 (x 0.15) and -410 J/mol (x 0.5), from memory; this gives -810 and -463.
///            Poor below x 0.05 at 25 °C: its slope at x = 0 is -22.7 kJ/mol against -10.1
///            (from memory). In wash of 8 %vol that is some 150 J/mol, so that the heat from
///            20 °C to the boil comes out 2 to 3 % high; at the boil itself it does not matter
/// source     Larkin, J. Chem. Thermodyn. 7 (1975) 137
[[nodiscard]] MolarEnthalpy excess_enthalpy(units::MoleFraction ethanol, units::Temperature t);

/// Its derivative with temperature: the excess heat capacity, same range.
[[nodiscard]] MolarHeatCapacity excess_heat_capacity(units::MoleFraction ethanol,
                                                     units::Temperature t);

}  // namespace lynearm::vapour
