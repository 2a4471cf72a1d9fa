#include "still/heat_up.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "vapour/enthalpy.hpp"

namespace lynearm::still {

HeatUp heat_up(const Charge& charge, const Boiler& boiler, units::Temperature ambient,
               const vapour::BoilingCurve& curve) {
  HeatUp result;
  result.boiling = boiling_temperature(charge, curve);
  if (!(charge.temperature.celsius() >= 0.0 && charge.temperature < result.boiling)) {
    throw base::InputError(
        "charge.temperature", fmt::format("{:.1f} °C", charge.temperature.celsius()),
        fmt::format("0 °C to below the boil at {:.1f} °C", result.boiling.celsius()));
  }
  const Moles in_pot = moles(charge.spirit);
  const double rise_K = (result.boiling - charge.temperature).kelvins();
  const vapour::MolarEnthalpy per_mole =
      vapour::liquid_enthalpy(in_pot.fraction(), result.boiling) -
      vapour::liquid_enthalpy(in_pot.fraction(), charge.temperature);
  result.to_charge =
      units::Energy::joules(in_pot.total().moles() * per_mole.joules_per_mole() +
                            charge.extract.kilograms() * extract_kJ_per_kg_K * 1e3 * rise_K);
  result.to_wall = units::Energy::joules(boiler.wall.joules_per_kelvin() * rise_K);
  result.volume_at_boil = volume(charge, result.boiling);

  // C dT/dt = P - U (T - Ta), C the mean over the rise.
  const double heat_J = (result.to_charge + result.to_wall).joules();
  const double arriving_W = boiler.power.watts() * boiler.heating_efficiency.fraction();
  const double loss_W_per_K = boiler.loss.watts_per_kelvin();
  const double at_start_W =
      arriving_W - loss_W_per_K * (charge.temperature - ambient).kelvins();
  const double at_boil_W = arriving_W - loss_W_per_K * (result.boiling - ambient).kelvins();
  if (!(at_boil_W > 0.0 && at_start_W > 0.0)) {
    throw base::InputError(
        "boiler.power", fmt::format("{:.0f} W", boiler.power.watts()),
        fmt::format(
            "more than {:.0f} W: less never brings this charge to its boil at {:.1f} °C",
            std::fmax(arriving_W - at_boil_W, 0.0) /
                std::fmax(boiler.heating_efficiency.fraction(), 1e-3),
            result.boiling.celsius()));
  }
  // ln(a/b)/(a-b), the reciprocal of the logarithmic mean power, also where the two are close.
  const double fall = (at_start_W - at_boil_W) / at_boil_W;
  const double mean_W =
      std::abs(fall) < 1e-9 ? at_boil_W : (at_start_W - at_boil_W) / std::log1p(fall);
  result.duration = units::Duration::seconds(heat_J / mean_W);
  result.drawn = units::Energy::joules(boiler.power.watts() * result.duration.seconds());
  return result;
}

}  // namespace lynearm::still
