#include "vapour/enthalpy.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "spirit/strength.hpp"
#include "vapour/activity.hpp"
#include "vapour/equilibrium.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

double weighted(units::MoleFraction ethanol, double of_ethanol, double of_water) {
  return ethanol.fraction() * of_ethanol + (1.0 - ethanol.fraction()) * of_water;
}

void require_liquid_range(units::MoleFraction ethanol, units::Temperature t) {
  require_in_range(ethanol, "ethanol");
  if (t < coldest || t > hottest_mixing) {
    throw base::InputError("temperature", fmt::format("{:.6g} °C", t.celsius()), "0 to 110 °C");
  }
}

}  // namespace

double molar_mass_g_per_mol(units::MoleFraction ethanol) {
  return weighted(ethanol, spirit::ethanol_molar_mass_g_per_mol,
                  spirit::water_molar_mass_g_per_mol);
}

MolarEnthalpy liquid_enthalpy(units::MoleFraction ethanol, units::Temperature t) {
  require_liquid_range(ethanol, t);
  double J_per_mol = weighted(ethanol, liquid_enthalpy(Substance::ethanol, t).joules_per_mole(),
                              liquid_enthalpy(Substance::water, t).joules_per_mole());
  if (t >= coldest_mixing) {
    J_per_mol += excess_enthalpy(ethanol, t).joules_per_mole();
  } else {
    J_per_mol += excess_enthalpy(ethanol, coldest_mixing).joules_per_mole() +
                 excess_heat_capacity(ethanol, coldest_mixing).joules_per_mole_kelvin() *
                     (t - coldest_mixing).kelvins();
  }
  return MolarEnthalpy::joules_per_mole(J_per_mol);
}

MolarEnthalpy vapour_enthalpy(units::MoleFraction ethanol, units::Temperature t) {
  require_in_range(ethanol, "ethanol");
  const MolarEnthalpy of_ethanol =
      liquid_enthalpy(Substance::ethanol, t) + latent_heat(Substance::ethanol, t);
  const MolarEnthalpy of_water =
      liquid_enthalpy(Substance::water, t) + latent_heat(Substance::water, t);
  return MolarEnthalpy::joules_per_mole(
      weighted(ethanol, of_ethanol.joules_per_mole(), of_water.joules_per_mole()));
}

MolarHeatCapacity liquid_heat_capacity(units::MoleFraction ethanol, units::Temperature t) {
  require_liquid_range(ethanol, t);
  const units::Temperature mixing = t < coldest_mixing ? coldest_mixing : t;
  return MolarHeatCapacity::joules_per_mole_kelvin(weighted(
             ethanol, liquid_heat_capacity(Substance::ethanol, t).joules_per_mole_kelvin(),
             liquid_heat_capacity(Substance::water, t).joules_per_mole_kelvin())) +
         excess_heat_capacity(ethanol, mixing);
}

MolarEnthalpy latent_heat(units::MoleFraction ethanol, units::Temperature t) {
  require_in_range(ethanol, "ethanol");
  return MolarEnthalpy::joules_per_mole(
      weighted(ethanol, latent_heat(Substance::ethanol, t).joules_per_mole(),
               latent_heat(Substance::water, t).joules_per_mole()));
}

MolarEnthalpy heat_of_vaporisation(units::MoleFraction liquid, units::Pressure p) {
  const units::Temperature t = bubble_point(liquid, p).temperature;
  return vapour_enthalpy(liquid, t) - liquid_enthalpy(liquid, t);
}

}  // namespace lynearm::vapour
