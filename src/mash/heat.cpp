#include "mash/heat.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/error.hpp"
#include "mash/limits.hpp"
#include "wort/gravity.hpp"

namespace lynearm::mash {
namespace {

/// Diameter of a cylinder as high as wide, m.
double diameter_m(units::Volume volume) {
  within("volume", volume.litres(), 0.0, 1e6, "L");
  return std::cbrt(4.0 * volume.cubic_metres() / std::numbers::pi);
}

}  // namespace

units::HeatCapacity heat_capacity_of_grain(units::Mass grain, units::Share moisture) {
  within("grain.moisture", moisture.percent(), 0.0, 30.0, "%");
  return units::HeatCapacity::kilojoules_per_kelvin(grain.kilograms() *
                                                    (1.59 + 2.2 * moisture.fraction()));
}

units::Energy hydration_heat(units::Mass grain, units::Share moisture) {
  struct Row {
    double moisture_percent, kJ_per_kg;
  };
  // Up to 8 %: dT x (S + M) x 4.187 of the table at M = 2.6 L/kg, rounded.
  // The row of 3 % contradicts itself in the table (2.3 °C against 3.5 °F) and is left out.
  static constexpr std::array<Row, 8> rows{{{0.0, 36.0},
                                            {1.0, 34.9},
                                            {2.0, 29.0},
                                            {4.0, 18.5},
                                            {6.0, 16.0},
                                            {8.0, 12.0},
                                            {13.0, 6.5},
                                            {20.0, 0.0}}};
  const double percent = moisture.percent();
  within("grain.moisture", percent, 0.0, 30.0, "%");
  double kJ_per_kg = 0.0;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (percent > rows[i].moisture_percent) continue;
    const Row& a = rows[i - 1];
    const Row& b = rows[i];
    const double share =
        (percent - a.moisture_percent) / (b.moisture_percent - a.moisture_percent);
    kJ_per_kg = a.kJ_per_kg + share * (b.kJ_per_kg - a.kJ_per_kg);
    break;
  }
  return units::Energy::kilojoules(grain.kilograms() * kJ_per_kg);
}

units::HeatCapacity heat_capacity(const Contents& contents) {
  return units::HeatCapacity::joules_per_kelvin(contents.water.kilograms() * water_J_per_kg_K +
                                                contents.sugar.kilograms() * sugar_J_per_kg_K) +
         heat_capacity_of_grain(contents.grain, contents.moisture);
}

units::Volume volume(const Contents& contents) {
  within_liquid("temperature", contents.temperature);
  const units::Temperature t =
      std::min(contents.temperature, units::Temperature::celsius(100.0));
  const double water_L =
      contents.all_water().kilograms() / wort::water_density(t).grams_per_millilitre();
  const double dry_kg = contents.grain.kilograms() * (1.0 - contents.moisture.fraction());
  return units::Volume::litres(water_L + dry_kg * grain_displacement_L_per_kg +
                               contents.sugar.kilograms() * sugar_displacement_L_per_kg);
}

Contents together(const Contents& a, const Contents& b) {
  Contents both;
  both.water = a.water + b.water;
  both.grain = a.grain + b.grain;
  both.sugar = a.sugar + b.sugar;
  if (both.grain.kilograms() > 0.0) {
    both.moisture = units::Share::fraction(
        (a.grain * a.moisture.fraction() + b.grain * b.moisture.fraction()) / both.grain);
  }
  const std::array<Body, 2> bodies{
      {{heat_capacity(a), a.temperature}, {heat_capacity(b), b.temperature}}};
  both.temperature = mixing_temperature(bodies);
  return both;
}

Contents water(units::Volume volume, units::Temperature t) {
  within("water.volume", volume.litres(), 0.0, 1e6, "L");
  within_liquid("water.temperature", t);
  Contents contents;
  contents.water = units::Mass::kilograms(
      volume.litres() * wort::water_density(std::min(t, units::Temperature::celsius(100.0)))
                            .grams_per_millilitre());
  contents.temperature = t;
  return contents;
}

units::Temperature mixing_temperature(std::span<const Body> bodies, units::Energy released) {
  double capacity_J_per_K = 0.0;
  double heat_J = released.joules();  // above 273.15 K, so that the sum keeps its digits
  for (const Body& body : bodies) {
    const double c = body.heat_capacity.joules_per_kelvin();
    capacity_J_per_K += c;
    heat_J += c * body.temperature.celsius();
  }
  if (!(capacity_J_per_K > 0.0)) {
    throw base::InputError("bodies", "", "at least one body with a heat capacity");
  }
  return units::Temperature::celsius(heat_J / capacity_J_per_K);
}

units::Area open_surface(units::Volume volume) {
  const double d = diameter_m(volume);
  return units::Area::square_metres(std::numbers::pi * d * d / 4.0);
}

units::Power open_surface_loss(units::Area surface, units::Temperature t) {
  within("temperature", t.celsius(), 20.0, 100.0 + 1e-9, "°C");
  // Magnus form of water's vapour pressure, ample for an order of magnitude. 27.5 W/m² a kPa
  // passes 0.69 kW/m² at 65 °C and 2.3 kW/m² at 95 °C.
  const double vapour_kPa = 0.61094 * std::exp(17.625 * t.celsius() / (t.celsius() + 243.04));
  return units::Power::watts(surface.square_metres() * 27.5 * vapour_kPa);
}

units::HeatLoss bare_heat_loss(units::Volume volume) {
  const double d = diameter_m(volume);
  return units::HeatLoss::watts_per_kelvin(9.0 * 1.5 * std::numbers::pi * d * d);
}

}  // namespace lynearm::mash
