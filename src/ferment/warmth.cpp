#include "ferment/warmth.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"

namespace lynearm::ferment {
namespace {

constexpr double water_kJ_per_kg_K = 4.18;
constexpr double extract_kJ_per_kg_K = 1.4;

void accept_positive(const char* field, double value) {
  if (!(value > 0.0 && std::isfinite(value)))
    throw base::InputError(field, fmt::format("{}", value), "above zero");
}

}  // namespace

units::Energy heat(units::Mass hexose, double kJ_per_kg_hexose) {
  if (!(kJ_per_kg_hexose >= 500.0 && kJ_per_kg_hexose <= 680.0))
    throw base::InputError("heat", fmt::format("{} kJ/kg", kJ_per_kg_hexose),
                           "500 to 680 kJ/kg hexose");
  return units::Energy::kilojoules(hexose.kilograms() * kJ_per_kg_hexose);
}

units::HeatCapacity heat_capacity(const wort::Wort& wort) {
  return units::HeatCapacity::kilojoules_per_kelvin(water_kJ_per_kg_K * wort.water.kilograms() +
                                                    extract_kJ_per_kg_K *
                                                        wort.extract.kilograms());
}

units::TemperatureChange adiabatic_rise(units::Mass hexose, units::HeatCapacity capacity,
                                        double kJ_per_kg_hexose) {
  accept_positive("capacity", capacity.joules_per_kelvin());
  return units::TemperatureChange::kelvins(heat(hexose, kJ_per_kg_hexose).joules() /
                                           capacity.joules_per_kelvin());
}

units::TemperatureChange steady_rise(units::Power power, units::HeatLoss loss) {
  accept_positive("loss", loss.watts_per_kelvin());
  return units::TemperatureChange::kelvins(power.watts() / loss.watts_per_kelvin());
}

units::HeatLoss usual_heat_loss(units::Volume volume) {
  if (!(volume.litres() >= 1.0 && volume.litres() <= 2000.0))
    throw base::InputError("volume", fmt::format("{} L", volume.litres()), "1 to 2000 L");
  static const double exponent = std::log10(17.0 / 5.0);
  return units::HeatLoss::watts_per_kelvin(5.0 * std::pow(volume.litres() / 20.0, exponent));
}

}  // namespace lynearm::ferment
