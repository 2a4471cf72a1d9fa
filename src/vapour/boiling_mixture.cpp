#include "vapour/boiling_mixture.hpp"

#include "vapour/enthalpy.hpp"
#include "vapour/equilibrium.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

BoilingMixture mixture(units::MoleFraction liquid, units::MoleFraction vapour,
                       units::Temperature t, units::Pressure p) {
  BoilingMixture found;
  found.pressure = p;
  found.temperature = t;
  found.liquid = liquid;
  found.vapour = vapour;
  found.activity = activity_coefficients(liquid, t);
  // By its definition it would be 0/0 in the pure liquids, where it has a limit.
  found.relative_volatility =
      found.activity.ethanol * vapour_pressure(Substance::ethanol, t).pascals() /
      (found.activity.water * vapour_pressure(Substance::water, t).pascals());
  found.liquid_enthalpy = liquid_enthalpy(liquid, t);
  found.vapour_enthalpy = vapour_enthalpy(vapour, t);
  found.heat_of_vaporisation = vapour_enthalpy(liquid, t) - found.liquid_enthalpy;
  return found;
}

}  // namespace

BoilingMixture boiling_mixture(units::MoleFraction liquid, units::Pressure p) {
  const BubblePoint bubble = bubble_point(liquid, p);
  return mixture(liquid, bubble.vapour, bubble.temperature, p);
}

BoilingMixture condensing_mixture(units::MoleFraction vapour, units::Pressure p) {
  const DewPoint dew = dew_point(vapour, p);
  return mixture(dew.liquid, vapour, dew.temperature, p);
}

double kilojoules_per_kilogram(MolarEnthalpy enthalpy, units::MoleFraction ethanol) {
  return enthalpy.joules_per_mole() / molar_mass_g_per_mol(ethanol);
}

}  // namespace lynearm::vapour
