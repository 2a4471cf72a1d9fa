// Random lots and strengths for the properties of reducing and blending.
#pragma once

#include <rapidcheck.h>

#include <cmath>
#include <vector>

#include "spirit/lot.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// A figure from `low` to `high` in ten thousand steps.
inline double any_figure(double low, double high) {
  return low + (high - low) * (*rc::gen::inRange(0, 10001) / 1e4);
}
inline units::VolumeStrength any_strength(double low_percent, double high_percent) {
  return units::VolumeStrength::percent(any_figure(low_percent, high_percent));
}
inline units::Temperature any_temperature(double low_C, double high_C) {
  return units::Temperature::celsius(any_figure(low_C, high_C));
}
/// 0.05 to 200 L.
inline Lot any_lot(double low_percent, double high_percent) {
  const double litres = std::exp(any_figure(std::log(0.05), std::log(200.0)));
  return lot(units::Volume::litres(litres), any_strength(low_percent, high_percent));
}

template <class Q>
bool equal_to(Q a, Q b, double relative) {
  return std::abs(a / b - 1.0) <= relative;
}

}  // namespace lynearm::spirit
