// Enthalpy of liquid and vapour mixtures of ethanol and water, and what follows from it: heat
// capacity and latent heat. Reference: each pure liquid at 0 °C. Liquid: heat capacities of the
// pure liquids plus the heat of mixing. Vapour: pure liquid plus latent heat at the same
// temperature, mixed ideally. Leaves out pressure and dissolved extract.
#pragma once

#include "units/quantity.hpp"
#include "vapour/molar.hpp"

namespace lynearm::vapour {

/// Molar mass of a mixture, g/mol, from the mole fraction of ethanol.
[[nodiscard]] double molar_mass_g_per_mol(units::MoleFraction ethanol);

/// Enthalpy of a liquid mixture above the two pure liquids at 0 °C.
///
/// ethanol    mole fraction, 0 to 1
/// t          0 to 110 °C. Below 25 °C, where the heat-of-mixing correlation ends, the excess
///            heat capacity is held at its value of 25 °C.
/// throws     InputError outside
/// accuracy   through heat capacities, below; from 20 °C to the boil 2 to 3 % high in a wash of
///            8 %vol, for the heat of mixing (activity.hpp)
[[nodiscard]] MolarEnthalpy liquid_enthalpy(units::MoleFraction ethanol, units::Temperature t);

/// Enthalpy of a vapour mixture above the two pure liquids at 0 °C; t 0 to 115 °C, InputError
/// outside. Accuracy: that of the latent heats (pure.hpp).
[[nodiscard]] MolarEnthalpy vapour_enthalpy(units::MoleFraction ethanol, units::Temperature t);

/// Heat capacity of a liquid mixture: the derivative of liquid_enthalpy().
///
/// accuracy   against Perry's specific heats of aqueous ethanol (3, 23, 41 °C): at most 7.6 %
///            high (tests/published/perry_specific_heat_test.cpp, with the reason)
[[nodiscard]] MolarHeatCapacity liquid_heat_capacity(units::MoleFraction ethanol,
                                                     units::Temperature t);

/// Heat that condenses a vapour of a composition wholly at one temperature, without the heat
/// of mixing (below 2 % of it at the boil): the mole-weighted latent heats of the pure liquids.
[[nodiscard]] MolarEnthalpy latent_heat(units::MoleFraction ethanol, units::Temperature t);

/// Heat that turns a boiling liquid wholly into vapour of its own composition, at its bubble
/// point: the latent heats of both less the heat of mixing. (The vapour that rises first is
/// richer; what a still needs for that is the difference of the enthalpies above.)
///
/// liquid     mole fraction of ethanol, 0 to 1
/// p          20 to 120 kPa; InputError outside
/// accuracy   pure, at 101.325 kPa: water 40.80 against 40.65, ethanol 38.94 against 38.56
///            kJ/mol (CRC Handbook); no published value of a mixture at hand. The heat of
///            mixing in it is below 1 % from 50 to 110 kPa
[[nodiscard]] MolarEnthalpy heat_of_vaporisation(units::MoleFraction liquid, units::Pressure p);

}  // namespace lynearm::vapour
