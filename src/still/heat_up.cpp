#include "still/heat_up.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.hpp"
#include "vapour/activity.hpp"
#include "vapour/enthalpy.hpp"

namespace lynearm::still {
namespace {

// Gauss-Legendre over five points, on -1 to 1. Abramowitz and Stegun, table 25.4.
constexpr std::array<double, 5> node = {-0.906179845938664, -0.538469310105683, 0.0,
                                        0.538469310105683, 0.906179845938664};
constexpr std::array<double, 5> weight = {0.236926885056189, 0.478628670499366,
                                          0.568888888888889, 0.478628670499366,
                                          0.236926885056189};
constexpr int panels = 4;

// Seconds from the charge's temperature to `boiling`: C(T) dT/dt = P(T), P = P0 - U (T - T0).
// With ds = dT / P, the heat capacity is all that is left under the integral and the power may
// come as close to nothing at the boil as it likes:
//     t = ∫ C ds,   T - T0 = P0 (1 - e^(-U s)) / U,   U s = -ln(1 - U (T - T0) / P0)
double warming_s(const Charge& charge, const Moles& in_pot, units::HeatCapacity wall,
                 units::Temperature boiling, double at_start_W, double loss_W_per_K) {
  const double n = in_pot.total().moles();
  const double fixed_J_per_K = (wall + extract_heat(charge)).joules_per_kelvin();
  const double start_K = charge.temperature.kelvins();
  const double U = loss_W_per_K;
  const auto s_at = [&](double rise_K) {
    return U > 0.0 ? -std::log1p(-U * rise_K / at_start_W) / U : rise_K / at_start_W;
  };
  const auto J_per_K = [&](double s) {
    const double rise_K = at_start_W * (U > 0.0 ? -std::expm1(-U * s) / U : s);
    const auto t =
        units::Temperature::kelvins(std::clamp(start_K + rise_K, start_K, boiling.kelvins()));
    return n * vapour::liquid_heat_capacity(in_pot.fraction(), t).joules_per_mole_kelvin() +
           fixed_J_per_K;
  };
  const auto between = [&](double from, double to) {
    double seconds = 0.0;
    const double half = (to - from) / panels / 2.0;
    for (int panel = 0; panel < panels; ++panel) {
      const double middle = from + (2 * panel + 1) * half;
      for (std::size_t i = 0; i < node.size(); ++i) {
        seconds += weight[i] * half * J_per_K(middle + node[i] * half);
      }
    }
    return seconds;
  };
  // The heat capacity has a corner where the heat of mixing begins to change.
  const double end = s_at((boiling - charge.temperature).kelvins());
  if (charge.temperature >= vapour::coldest_mixing) return between(0.0, end);
  const double corner = s_at((vapour::coldest_mixing - charge.temperature).kelvins());
  return between(0.0, corner) + between(corner, end);
}

}  // namespace

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
  result.to_charge = units::Energy::joules(in_pot.total().moles() * per_mole.joules_per_mole() +
                                           extract_heat(charge).joules_per_kelvin() * rise_K);
  result.to_wall = units::Energy::joules(boiler.wall.joules_per_kelvin() * rise_K);
  result.volume_at_boil = volume(charge, result.boiling);

  const Heating heating = full_heat(boiler, ambient);
  const double at_start_W = net_power(heating, charge.temperature).watts();
  const double at_boil_W = net_power(heating, result.boiling).watts();
  if (!(at_boil_W > 0.0 && at_start_W > 0.0)) {
    const double arriving_W = boiler.power.watts() * boiler.heating_efficiency.fraction();
    throw base::InputError(
        "boiler.power", fmt::format("{:.0f} W", boiler.power.watts()),
        fmt::format(
            "more than {:.0f} W: less never brings this charge to its boil at {:.1f} °C",
            std::fmax(arriving_W - at_boil_W, 0.0) /
                std::fmax(boiler.heating_efficiency.fraction(), 1e-3),
            result.boiling.celsius()));
  }
  result.duration = units::Duration::seconds(warming_s(
      charge, in_pot, boiler.wall, result.boiling, at_start_W, boiler.loss.watts_per_kelvin()));
  result.drawn = units::Energy::joules(boiler.power.watts() * result.duration.seconds());
  return result;
}

}  // namespace lynearm::still
