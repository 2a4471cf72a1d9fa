// The units in which the bodies of entries stand in JSON: each with the ending of its keys, the
// bounds of what can be meant and its two conversions. For the sources of this room only.
#pragma once

#include <cmath>
#include <string_view>

#include "units/quantity.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {

template <class Q>
struct Unit {
  double (*in)(const Q&) = nullptr;
  Q (*of)(double) = nullptr;
  double low = 0.0, high = 0.0;  ///< in this unit; wide on purpose: common practice, no source
  std::string_view about;        ///< "°C"
};

#define LYNEARM_UNIT(Name, Q, factory, low, high, about)                \
  inline constexpr Unit<units::Q> Name {                                \
    [](const units::Q& q) { return q.factory(); },                      \
        [](double v) { return units::Q::factory(v); }, low, high, about \
  }

LYNEARM_UNIT(celsius, Temperature, celsius, -20.0, 120.0, "°C");
LYNEARM_UNIT(litres, Volume, litres, 0.0, 10'000.0, "L");
LYNEARM_UNIT(millilitres, Volume, millilitres, 0.0, 10'000'000.0, "mL");
LYNEARM_UNIT(kilograms, Mass, kilograms, 0.0, 10'000.0, "kg");
LYNEARM_UNIT(grams, Mass, grams, 0.0, 1'000'000.0, "g");
LYNEARM_UNIT(hectopascals, Pressure, hectopascals, 300.0, 1100.0, "hPa");
LYNEARM_UNIT(watts, Power, watts, 0.0, 100'000.0, "W");
LYNEARM_UNIT(litres_per_minute, VolumeFlow, litres_per_minute, 0.0, 1000.0, "L/min");
LYNEARM_UNIT(grams_per_litre, MassConcentration, grams_per_litre, 0.0, 50.0, "g/L");
LYNEARM_UNIT(percent_vol, VolumeStrength, percent, 0.0, 100.0, "%vol");

#undef LYNEARM_UNIT

/// A figure as the journal keeps it: ten significant digits, nothing under 1e-9. Reader and
/// writer both round so, that what is read is what is written, however often.
[[nodiscard]] inline double kept(double value) {
  const double rounded = std::round(value * 1e9) / 1e9;
  return figure(rounded).get<double>();
}

}  // namespace lynearm::wire
