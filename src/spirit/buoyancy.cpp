#include "spirit/buoyancy.hpp"

#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <string>

#include "base/error.hpp"
#include "spirit/density.hpp"

namespace lynearm::spirit {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

void check_amount(double amount, const char* field, const char* unit) {
  if (!(amount >= 0.0 && amount < infinite)) {
    throw base::InputError(field, fmt::format("{:.4f} {}", amount, unit), "zero or more");
  }
}

// A density in kg/m³, within what the field may be.
double checked(units::Density density, const char* field, double least, double most) {
  const double kgm3 = density.kilograms_per_cubic_metre();
  if (!(kgm3 >= least && kgm3 <= most)) {
    throw base::InputError(field, fmt::format("{:.4f} kg/m³", kgm3),
                           fmt::format("{:.0f} to {:.0f} kg/m³", least, most));
  }
  return kgm3;
}

double liquid_kgm3(units::Density density, const char* field = "density") {
  return checked(density, field, 100.0, 25000.0);
}

double air_kgm3(const Air& air) { return checked(air.density, "air", 0.0, 2.0); }

// What the air leaves of the weights' own weight.
double left_of(units::Density weights, const Air& air) {
  return 1.0 - air_kgm3(air) / checked(weights, "weights", 1000.0, 25000.0);
}

// Weight over mass of a body in air, against the weights'.
double lightness(units::Density density, const Air& air, units::Density weights) {
  return (1.0 - air_kgm3(air) / liquid_kgm3(density)) / left_of(weights, air);
}

units::Density water_at(units::Temperature t) { return density(units::MassFraction{}, t); }

GravityInAir in_air_at(double gravity, units::Temperature t, const Air& air) {
  const units::Density water = water_at(t);
  return gravity_in_air(water * gravity, water, air);
}

double in_vacuum_at(GravityInAir gravity, units::Temperature t, const Air& air) {
  const units::Density water = water_at(t);
  return density_of(gravity, water, air) / water;
}

}  // namespace

Air moist_air(units::Temperature t, units::Pressure pressure, units::Share relative_humidity) {
  if (!(t >= coldest && t <= warmest)) {
    throw base::InputError("air.temperature", fmt::format("{:.2f} °C", t.celsius()),
                           "-20 to 40 °C");
  }
  const double p_hPa = pressure.hectopascals();
  if (!(p_hPa >= 500.0 && p_hPa <= 1100.0)) {
    throw base::InputError("air.pressure", fmt::format("{:.2f} hPa", p_hPa),
                           "500 to 1100 hPa, as it stands in the room");
  }
  const double humidity_percent = relative_humidity.percent();
  if (!(humidity_percent >= 0.0 && humidity_percent <= 100.0)) {
    throw base::InputError("air.humidity", fmt::format("{:.2f} %", humidity_percent),
                           "0 to 100 %");
  }
  // OIML R 111-1, E.3: pressure in hPa, humidity in %, temperature in °C.
  const double vapour = 0.009 * humidity_percent * std::exp(0.061 * t.celsius());
  return {units::Density::kilograms_per_cubic_metre((0.34848 * p_hPa - vapour) /
                                                    (273.15 + t.celsius()))};
}

units::Mass weight_in_air(units::Mass mass, units::Density density, const Air& air,
                          units::Density weights) {
  check_amount(mass.kilograms(), "mass", "kg");
  return mass * lightness(density, air, weights);
}

units::Mass weight_in_air(units::Volume volume, units::Density density, const Air& air,
                          units::Density weights) {
  check_amount(volume.litres(), "volume", "L");
  const double kilograms = density.kilograms_per_cubic_metre() * volume.cubic_metres();
  return units::Mass::kilograms(kilograms) * lightness(density, air, weights);
}

units::Mass mass_of(units::Mass shown, units::Density density, const Air& air,
                    units::Density weights) {
  check_amount(shown.kilograms(), "mass", "kg");
  return shown / lightness(density, air, weights);
}

units::Density density_of(units::Mass shown, units::Volume volume, const Air& air,
                          units::Density weights) {
  check_amount(shown.kilograms(), "mass", "kg");
  if (!(volume.litres() > 0.0 && volume.litres() < infinite)) {
    throw base::InputError("volume", fmt::format("{:.4f} L", volume.litres()), "above zero");
  }
  // shown = volume (density - air) / (1 - air / weights), solved for the density.
  const auto found = units::Density::kilograms_per_cubic_metre(
      shown.kilograms() * left_of(weights, air) / volume.cubic_metres() + air_kgm3(air));
  static_cast<void>(liquid_kgm3(found));
  return found;
}

units::Mass conventional_mass(units::Mass mass, units::Density density) {
  return weight_in_air(mass, density);
}

GravityInAir gravity_in_air(units::Density liquid, units::Density water, const Air& air) {
  const double a = air_kgm3(air);
  return GravityInAir::ratio((liquid_kgm3(liquid) - a) / (liquid_kgm3(water, "water") - a));
}

units::Density density_of(GravityInAir gravity, units::Density water, const Air& air) {
  if (!(gravity.ratio() >= 0.1 && gravity.ratio() <= 10.0)) {
    throw base::InputError("gravity", fmt::format("{:.5f}", gravity.ratio()), "0.1 to 10");
  }
  const double a = air_kgm3(air);
  return units::Density::kilograms_per_cubic_metre(a + gravity.ratio() *
                                                           (liquid_kgm3(water, "water") - a));
}

GravityInAir gravity_in_air(units::MassFraction ethanol, units::Temperature t, const Air& air) {
  return gravity_in_air(density(ethanol, t), water_at(t), air);
}

units::MassFraction mass_fraction(GravityInAir gravity, units::Temperature t, const Air& air) {
  const double least = gravity_in_air(units::MassFraction::fraction(1.0), t, air).ratio();
  constexpr double rounding = 1e-12;
  if (!(gravity.ratio() >= least - rounding && gravity.ratio() <= 1.0 + rounding)) {
    throw base::InputError("gravity", fmt::format("{:.5f}", gravity.ratio()),
                           fmt::format("{:.4f} (pure ethanol) to 1 (water) in air at {:.2f} °C",
                                       least, t.celsius()));
  }
  return mass_fraction_at(density_of(gravity, water_at(t), air), t);
}

GravityInAir in_air(units::SpecificGravity gravity, const Air& air) {
  return in_air_at(gravity.ratio(), reference_20C, air);
}

GravityInAir in_air(SpecificGravity60F gravity, const Air& air) {
  return in_air_at(gravity.ratio(), reference_60F, air);
}

units::SpecificGravity in_vacuum_20C(GravityInAir gravity, const Air& air) {
  return units::SpecificGravity::ratio(in_vacuum_at(gravity, reference_20C, air));
}

SpecificGravity60F in_vacuum_60F(GravityInAir gravity, const Air& air) {
  return SpecificGravity60F::ratio(in_vacuum_at(gravity, reference_60F, air));
}

}  // namespace lynearm::spirit
