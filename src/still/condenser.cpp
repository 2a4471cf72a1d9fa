#include "still/condenser.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"
#include "vapour/enthalpy.hpp"

namespace lynearm::still {
units::Power heat_to_remove(const SpiritFlow& flow, units::Temperature spout,
                            const vapour::BoilingCurve& curve) {
  if (!(spout.celsius() >= 0.0 && spout.celsius() <= 60.0)) {
    throw base::InputError("spout_temperature", fmt::format("{:.1f} °C", spout.celsius()),
                           "0 to 60 °C");
  }
  if (!(flow.at_20C >= units::VolumeFlow{})) {
    throw base::InputError("flow", fmt::format("{:.3g} L/h", flow.at_20C.litres_per_hour()),
                           "zero or more");
  }
  const units::MassFraction by_mass = spirit::mass_fraction(flow.strength);
  const units::MoleFraction y = spirit::mole_fraction(by_mass);
  const double grams_per_s =
      flow.at_20C.litres_per_second() *
      spirit::density(by_mass, spirit::reference_20C).kilograms_per_cubic_metre();
  const vapour::MolarEnthalpy given =
      vapour::vapour_enthalpy(y, curve.dew_temperature(y)) - vapour::liquid_enthalpy(y, spout);
  return units::Power::watts(grams_per_s / vapour::molar_mass_g_per_mol(y) *
                             given.joules_per_mole());
}

units::VolumeFlow coolant_flow(units::Power heat, units::Temperature inlet,
                               units::Temperature leaving) {
  if (!(leaving > inlet)) {
    throw base::InputError("coolant.leaving", fmt::format("{:.1f} °C", leaving.celsius()),
                           fmt::format("above the {:.1f} °C it enters with", inlet.celsius()));
  }
  return units::VolumeFlow::litres_per_second(
      heat.watts() / (coolant_J_per_L_K * (leaving - inlet).kelvins()));
}

units::Temperature coolant_leaving(units::Power heat, units::Temperature inlet,
                                   units::VolumeFlow flow) {
  if (!(flow > units::VolumeFlow{})) {
    throw base::InputError("coolant.flow",
                           fmt::format("{:.3g} L/min", flow.litres_per_minute()), "above zero");
  }
  return inlet + units::TemperatureChange::kelvins(
                     heat.watts() / (coolant_J_per_L_K * flow.litres_per_second()));
}

Cooling cooling(const SpiritFlow& flow, units::Temperature spout, const Condenser& condenser,
                const vapour::BoilingCurve& curve) {
  if (!(condenser.greatest_flow > units::VolumeFlow{})) {
    throw base::InputError(
        "condenser.greatest_flow",
        fmt::format("{:.3g} L/min", condenser.greatest_flow.litres_per_minute()), "above zero");
  }
  Cooling result;
  result.heat = heat_to_remove(flow, spout, curve);
  const units::MoleFraction y = spirit::mole_fraction(spirit::mass_fraction(flow.strength));
  result.vapour = curve.dew_temperature(y);
  result.warmest_leaving = result.vapour - condenser.warm_end_approach;
  if (!(condenser.coolant_inlet < result.warmest_leaving)) {
    throw base::InputError("condenser.coolant_inlet",
                           fmt::format("{:.1f} °C", condenser.coolant_inlet.celsius()),
                           fmt::format("below {:.1f} °C", result.warmest_leaving.celsius()));
  }
  result.least_flow =
      coolant_flow(result.heat, condenser.coolant_inlet, result.warmest_leaving);
  result.flow_enough = result.least_flow <= condenser.greatest_flow;
  result.coldest_spout = condenser.coolant_inlet + condenser.cold_end_approach;
  result.spout_reachable = spout >= result.coldest_spout;
  result.leaving_at_greatest_flow =
      coolant_leaving(result.heat, condenser.coolant_inlet, condenser.greatest_flow);
  // The heat goes with the flow of spirit, so the greatest flow follows in proportion.
  const SpiritFlow unit{units::VolumeFlow::litres_per_hour(1.0), flow.strength};
  const units::VolumeFlow for_unit = coolant_flow(
      heat_to_remove(unit, spout, curve), condenser.coolant_inlet, result.warmest_leaving);
  result.greatest_spirit = unit.at_20C * (condenser.greatest_flow / for_unit);
  return result;
}

}  // namespace lynearm::still
