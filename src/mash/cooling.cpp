#include "mash/cooling.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "mash/limits.hpp"

namespace lynearm::mash {
namespace {

double total_W_per_K(const Cooling& cooling) {
  within("cooling.vessel", cooling.vessel.watts_per_kelvin(), 0.0, 1e5, "W/K");
  within("cooling.coil", cooling.coil.watts_per_kelvin(), 0.0, 1e6, "W/K");
  const double total = cooling.vessel.watts_per_kelvin() + cooling.coil.watts_per_kelvin();
  if (!(total > 0.0)) throw base::InputError("cooling.vessel", "0 W/K", "above 0 W/K");
  return total;
}

double capacity_J_per_K(units::HeatCapacity body) {
  const double c = body.joules_per_kelvin();
  if (!(c > 0.0)) {
    throw base::InputError("heat_capacity", fmt::format("{:.6g} J/K", c), "above 0 J/K");
  }
  return c;
}

}  // namespace

units::Temperature settling_temperature(const Cooling& cooling) {
  const double total = total_W_per_K(cooling);
  const double coil_share = cooling.coil.watts_per_kelvin() / total;
  if (coil_share == 0.0) return cooling.ambient;
  return cooling.ambient + (cooling.coil_water - cooling.ambient) * coil_share;
}

units::Temperature temperature_after(units::Temperature start, units::Duration time,
                                     units::HeatCapacity body, const Cooling& cooling) {
  within("cooling.time", time.hours(), 0.0, 1e5, "h");
  const units::Temperature end = settling_temperature(cooling);
  const double decay =
      std::exp(-time.seconds() * total_W_per_K(cooling) / capacity_J_per_K(body));
  return end + (start - end) * decay;
}

units::Duration time_to_cool(units::Temperature start, units::Temperature end,
                             units::HeatCapacity body, const Cooling& cooling) {
  const units::Temperature settles = settling_temperature(cooling);
  const double share =
      (start - settles).kelvins() != 0.0 ? (end - settles) / (start - settles) : 0.0;
  if (!(share > 0.0 && share <= 1.0)) {
    throw base::InputError("cooling.end", fmt::format("{:.1f} °C", end.celsius()),
                           fmt::format("between {:.1f} °C, where it settles, and {:.1f} °C",
                                       settles.celsius(), start.celsius()));
  }
  return units::Duration::seconds(-std::log(share) * capacity_J_per_K(body) /
                                  total_W_per_K(cooling));
}

units::HeatLoss heat_loss_from_test(units::Temperature start, units::Temperature end,
                                    units::Duration time, units::HeatCapacity body,
                                    units::Temperature ambient) {
  if (!(time.seconds() > 0.0)) {
    throw base::InputError("cooling.time", fmt::format("{:g} min", time.minutes()),
                           "above 0 min");
  }
  const double share =
      (start - ambient).kelvins() != 0.0 ? (end - ambient) / (start - ambient) : 0.0;
  if (!(share > 0.0 && share < 1.0)) {
    throw base::InputError("cooling.end", fmt::format("{:.1f} °C", end.celsius()),
                           fmt::format("between the ambient {:.1f} °C and the start {:.1f} °C",
                                       ambient.celsius(), start.celsius()));
  }
  return units::HeatLoss::watts_per_kelvin(-std::log(share) * capacity_J_per_K(body) /
                                           time.seconds());
}

units::Duration time_to_heat(units::Temperature start, units::Temperature end,
                             units::HeatCapacity body, units::Power heat, units::HeatLoss loss,
                             units::Temperature ambient) {
  within("heat.loss", loss.watts_per_kelvin(), 0.0, 1e5, "W/K");
  const double c = capacity_J_per_K(body);
  const double rise_K = (end - start).kelvins();
  if (rise_K <= 0.0) return units::Duration();
  const double to_spare_at_end_W =
      heat.watts() - loss.watts_per_kelvin() * (end - ambient).kelvins();
  if (!(to_spare_at_end_W > 0.0)) {
    throw base::InputError(
        "heat.power", fmt::format("{:.0f} W into the vessel", heat.watts()),
        fmt::format("above {:.0f} W, what the vessel loses at {:.0f} °C",
                    loss.watts_per_kelvin() * (end - ambient).kelvins(), end.celsius()));
  }
  const double u = loss.watts_per_kelvin();
  if (u * rise_K < 1e-9 * to_spare_at_end_W) {
    return units::Duration::seconds(c * rise_K / to_spare_at_end_W);
  }
  return units::Duration::seconds(c / u * std::log1p(u * rise_K / to_spare_at_end_W));
}

}  // namespace lynearm::mash
