// How ethanol and water in one liquid hold each other back: activity coefficients by the NRTL
// equation, and the heat of mixing by its own correlation. The two are separate fits: the NRTL
// parameters are regressed from boiling data (tools/regress_activity), and the heat of mixing
// that can be derived from them has the wrong size
// (tests/identity/vapour_consistency_test.cpp).
#pragma once

#include "units/quantity.hpp"
#include "vapour/boiling_kernel.hpp"
#include "vapour/molar.hpp"

namespace lynearm::vapour {

/// NRTL of Renon and Prausnitz, 1 ethanol, 2 water: tau = a + b/T, G = exp(-alpha tau).
using NrtlParameters = kernel::Nrtl;

/// The house's, fitted to 124 measured rows from 4 to 101 kPa and to the azeotrope at one
/// atmosphere; tools/regress_activity prints them with their uncertainties, and
/// tests/published/activity_regression_test.cpp finds them again. alpha is the customary 0.3:
/// the data do not tell it from the others.
inline constexpr NrtlParameters house_nrtl{
    .a12 = -0.9658, .b12_K = 305.89, .a21 = 3.8258, .b21_K = -719.73, .alpha = 0.3};

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
/// accuracy   through the bubble points: see equilibrium.hpp. Below 50 °C, where flash points
///            and casks ask, two sets at 25 and 30 °C stand behind it, and it follows them less
///            well than the boiling data: the water's activity 1 to 3 % low from 60 to 85 %vol,
///            ethanol's 7 to 10 % high below 3 mol % (docs/accuracy.md)
/// source     NRTL of Renon and Prausnitz; the parameters are our regression of published
///            equilibria
[[nodiscard]] ActivityCoefficients activity_coefficients(
    units::MoleFraction ethanol, units::Temperature t,
    const NrtlParameters& parameters = house_nrtl);

/// Derivatives of ln(gamma): with x, the mole fraction of ethanol, at constant temperature,
/// and with temperature at constant x.
struct ActivitySlopes {
  double ethanol = 0.0;
  double water = 0.0;
  double ethanol_per_K = 0.0;
  double water_per_K = 0.0;
};
[[nodiscard]] ActivitySlopes activity_slopes(units::MoleFraction ethanol, units::Temperature t,
                                             const NrtlParameters& parameters = house_nrtl);

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
