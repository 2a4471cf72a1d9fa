#include "spirit/measured_reduction.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>

#include "base/error.hpp"
#include "spirit/reduction_checks.hpp"

namespace lynearm::spirit {
namespace {

void check_spirit_temperature(units::Temperature t, const char* field) {
  if (!(t >= coldest && t <= warmest)) {
    throw base::InputError(field, fmt::format("{:.2f} °C", t.celsius()),
                           "-20 to 40 °C; let warmer spirit cool first, its vapour can burn");
  }
}

units::Density water_density(units::Temperature t) {
  if (!(t >= coldest_water && t <= warmest_water)) {
    throw base::InputError("water_temperature", fmt::format("{:.2f} °C", t.celsius()),
                           "0 to 40 °C; let warmer water cool first, it drives vapour off the "
                           "spirit, which can burn");
  }
  return density(units::MassFraction{}, t);
}

}  // namespace

units::Mass water_mass(units::Volume volume, units::Temperature t) {
  const double litres = volume.litres();
  if (!(litres >= 0.0 && std::isfinite(litres))) {
    throw base::InputError("water", fmt::format("{:.4f} L", litres), "a volume, zero or more");
  }
  return units::Mass::kilograms(volume.cubic_metres() *
                                water_density(t).kilograms_per_cubic_metre());
}

units::Volume water_volume(units::Mass water, units::Temperature t) {
  check_amount(water, "water");
  return units::Volume::cubic_metres(water.kilograms() /
                                     water_density(t).kilograms_per_cubic_metre());
}

MeasuredReduction measured(const Lot& spirit, const Reduction& reduction,
                           const MixingTemperatures& t) {
  check_spirit_temperature(t.spirit, "spirit_temperature");
  check_spirit_temperature(t.result, "result_temperature");
  MeasuredReduction out;
  out.by_mass = reduction;
  out.water = water_volume(reduction.water, t.water);
  out.spirit = volume(spirit, t.spirit);
  out.result = volume(reduction.result, t.result);
  out.contraction = out.spirit + out.water - out.result;
  return out;
}

MeasuredReduction reduce(const Lot& spirit, units::VolumeStrength to,
                         const MixingTemperatures& t) {
  return measured(spirit, reduce(spirit, to), t);
}

}  // namespace lynearm::spirit
