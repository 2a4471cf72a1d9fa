#include "still/todays_air.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "numeric/normal.hpp"
#include "units/print.hpp"
#include "vapour/atmosphere.hpp"
#include "vapour/equilibrium.hpp"
#include "vapour/pure.hpp"

namespace lynearm::still {
namespace {

using units::Pressure;
using units::Temperature;
using units::TemperatureChange;

// A look further off than this is another mistake: not yet boiling, or the tip in the air.
constexpr TemperatureChange furthest_look = TemperatureChange::kelvins(5.0);

double square(double v) { return v * v; }

// How the boiling point of water moves with the pressure: Clausius and Clapeyron's slope.
double water_slope_K_per_Pa(Pressure p) {
  const Temperature boils = vapour::water_boiling_point(p);
  return 1.0 / (p.pascals() * vapour::log_slope_per_K(vapour::Substance::water, boils));
}

void check(const AirBefore& before) {
  vapour::require_in_range(before.pressure, "pressure");
  if (!(before.pressure_sd >= Pressure{}) || !(before.thermometer_sd >= TemperatureChange{})) {
    throw base::InputError("pressure_sd, thermometer_sd",
                           fmt::format("{:.6g} Pa, {:.6g} K", before.pressure_sd.pascals(),
                                       before.thermometer_sd.kelvins()),
                           "spreads of zero or more");
  }
}

// A temperature of today's air: what is shown, and the spread that comes of pressure and offset
// together; `at` says where it lies at a pressure.
template <class At>
Cue cue(const TodaysAir& air, const At& at) {
  constexpr Pressure step = Pressure::hectopascals(1.0);
  const Temperature truly = at(air.pressure);
  const double slope_K_per_Pa =
      (at(air.pressure + step) - at(air.pressure - step)).kelvins() / (2.0 * step.pascals());
  const double by_pressure = slope_K_per_Pa * air.pressure_sd.pascals();
  const double by_offset = air.offset_sd.kelvins();
  const double variance =
      square(by_pressure) + square(by_offset) + 2.0 * air.correlation * by_pressure * by_offset;
  return {air.as_shown(truly), TemperatureChange::kelvins(std::sqrt(std::max(0.0, variance)))};
}

}  // namespace

AirBefore air_at_altitude(units::Length altitude) {
  return {vapour::standard_pressure(altitude), weather_sd, thermometer_sd};
}

AirBefore air_at_pressure(Pressure pressure) {
  vapour::require_in_range(pressure, "pressure");
  return {pressure, barometer_sd, thermometer_sd};
}

Pressure pressure_at_altitude(Pressure at_sea_level, units::Length altitude) {
  return at_sea_level * (vapour::standard_pressure(altitude) / Pressure::atmospheres(1.0));
}

TodaysAir todays_air(const AirBefore& before) {
  check(before);
  return {before.pressure, before.pressure_sd, {}, before.thermometer_sd};
}

TodaysAir todays_air(const AirBefore& before, Temperature shown, TemperatureChange look) {
  check(before);
  if (!(look > TemperatureChange{})) {
    throw base::InputError("look_sd", units::concise(look), "a spread above zero");
  }
  const Temperature expected = vapour::water_boiling_point(before.pressure);
  const TemperatureChange off = shown - expected;
  if (!(off <= furthest_look && off >= -furthest_look)) {
    throw base::InputError(
        "boiling_water",
        std::isfinite(shown.kelvins()) ? units::concise(shown) : "not a number",
        fmt::format("{} to {}: at {} water boils at {}; let it boil hard, with the tip in "
                    "the water",
                    units::print(expected - furthest_look),
                    units::print(expected + furthest_look), units::print(before.pressure),
                    units::print(expected)));
  }
  const double pressure_var = square(before.pressure_sd.pascals());
  const double offset_var = square(before.thermometer_sd.kelvins());
  const double look_var = square(look.kelvins());
  TodaysAir air{before.pressure, {}, {}, {}};
  // The boiling point bends so little that the second turn settles the slope.
  constexpr int turns = 4;
  for (int turn = 0; turn < turns; ++turn) {
    const double slope = water_slope_K_per_Pa(air.pressure);
    const double variance = square(slope) * pressure_var + offset_var + look_var;
    const double innovation = (shown - vapour::water_boiling_point(air.pressure)).kelvins() -
                              slope * (before.pressure - air.pressure).pascals();
    const double pressure_gain = slope * pressure_var / variance;
    const double offset_gain = offset_var / variance;
    air.pressure = before.pressure + Pressure::pascals(pressure_gain * innovation);
    air.thermometer_offset = TemperatureChange::kelvins(offset_gain * innovation);
    const double covariance = -pressure_gain * offset_var;
    const double pressure_sd = std::sqrt(pressure_var * (offset_var + look_var) / variance);
    const double offset_sd =
        std::sqrt(offset_var * (square(slope) * pressure_var + look_var) / variance);
    air.pressure_sd = Pressure::pascals(pressure_sd);
    air.offset_sd = TemperatureChange::kelvins(offset_sd);
    const double size = pressure_sd * offset_sd;
    air.correlation = size > 0.0 ? std::clamp(covariance / size, -1.0, 1.0) : 0.0;
    air.surprise = off.kelvins() / std::sqrt(variance);
  }
  return air;
}

Cue boiling_cue(const TodaysAir& air, units::MoleFraction liquid) {
  vapour::require_in_range(liquid, "liquid");
  return cue(air, [&](Pressure p) { return vapour::bubble_point(liquid, p).temperature; });
}

Cue dew_cue(const TodaysAir& air, units::MoleFraction rising) {
  vapour::require_in_range(rising, "vapour");
  return cue(air, [&](Pressure p) { return vapour::dew_point(rising, p).temperature; });
}

std::string account(const TodaysAir& air) {
  const double offset_K = air.thermometer_offset.kelvins();
  std::string text = fmt::format(
      "Pressure {:.0f} hPa, give or take {:.0f}; the thermometer shows {:.1f} K {}, give or "
      "take {:.1f} K; each four times in five.",
      air.pressure.hectopascals(), numeric::half_of_80 * air.pressure_sd.hectopascals(),
      std::abs(offset_K), offset_K < 0.0 ? "too little" : "too much",
      numeric::half_of_80 * air.offset_sd.kelvins());
  // Half of either's variance then hangs on the other.
  if (air.correlation < -0.7) {
    text += fmt::format(
        " Boiling water cannot tell the two apart: {:.0f} hPa less and a thermometer that "
        "shows "
        "{:.1f} K too little look alike. They are shared out by how much each usually strays; "
        "the cues, which need only their sum, are known to {:.1f} K.",
        numeric::half_of_80 * air.pressure_sd.hectopascals(),
        numeric::half_of_80 * air.pressure_sd.pascals() * water_slope_K_per_Pa(air.pressure),
        numeric::half_of_80 *
            cue(air, [](Pressure p) { return vapour::water_boiling_point(p); }).sd.kelvins());
  }
  if (std::abs(air.surprise) > 3.0) {
    text += " That is far from what was expected: look again before believing it.";
  }
  return text;
}

}  // namespace lynearm::still
