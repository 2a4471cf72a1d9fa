#include "wort/gravity.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/hot_water.hpp"

namespace lynearm::wort {
namespace {

using units::Density;
using units::Mass;
using units::Plato;
using units::SpecificGravity;
using units::Temperature;
using units::Volume;

constexpr double water_20C_kgm3 = water_at_20C.kilograms_per_cubic_metre();
constexpr double air_kgm3 = 1.2;

// The cubic and its slope, in apparent gravity (in air).
constexpr double c0 = -669.5622, c1 = 1262.7794, c2 = -775.6821, c3 = 182.4601;
constexpr double at_water = c0 + c1 + c2 + c3;  // -0.0048
constexpr double fade_over = 0.008;

struct ValueSlope {
  double value, slope;
};

// Weighed in air, wort and water lose the same buoyancy, so the ratio spreads a little.
constexpr double spread = water_20C_kgm3 / (water_20C_kgm3 - air_kgm3);

constexpr ValueSlope above_water(double sg) {
  const double s = 1.0 + (sg - 1.0) * spread;
  double value = c0 + s * (c1 + s * (c2 + s * c3));
  double slope = c1 + s * (2.0 * c2 + s * 3.0 * c3);
  const double rest = 1.0 - (s - 1.0) / fade_over;
  if (rest > 0.0) {
    value -= at_water * rest * rest;
    slope += 2.0 * at_water * rest / fade_over;
  }
  return {value, slope * spread};
}

constexpr double slope_at_water = above_water(1.0).slope;

constexpr ValueSlope extract_P(double sg) {
  if (sg < 1.0) return {slope_at_water * (sg - 1.0), slope_at_water};
  return above_water(sg);
}

constexpr double lightest_P = extract_P(lightest.ratio()).value;

double gravity_of_P(double target_P) {
  if (target_P <= 0.0) return 1.0 + target_P / slope_at_water;
  double sg = 1.0 + target_P * (0.00386 + 0.000015 * target_P);
  for (int i = 0; i < 20; ++i) {
    const auto [value, slope] = extract_P(sg);
    const double step = (target_P - value) / slope;
    sg += step;
    if (std::abs(step) < 1e-15) break;
  }
  base::ensure(std::abs(extract_P(sg).value - target_P) < 1e-11,
               "gravity of an extract puts back to the extract");
  return sg;
}

void accept_extract(Plato extract) {
  // With room for the rounding of a quotient of masses.
  if (!(extract.degrees() >= lightest_P - 1e-12 &&
        extract.degrees() <= strongest.degrees() + 1e-12))
    throw base::InputError("extract", fmt::format("{:.3f} °P", extract.degrees()),
                           fmt::format("{:.1f} to 40 °P", lightest_P));
}

void accept_wort_extract(Plato extract) {
  if (!(extract.degrees() >= 0.0 && extract <= strongest))
    throw base::InputError("extract", fmt::format("{:.3f} °P", extract.degrees()),
                           "0 to 40 °P");
}

}  // namespace

Plato plato(SpecificGravity gravity) {
  const double sg = gravity.ratio();
  // Not above 40 °P, with room for the rounding of an inverse.
  if (!(gravity >= lightest && sg < 1.2 && extract_P(sg).value <= strongest.degrees() + 1e-9))
    throw base::InputError("gravity", fmt::format("{:.4f}", sg),
                           "a specific gravity of 0.970 to that of 40 °P, about 1.1786");
  return Plato::degrees(extract_P(sg).value);
}

SpecificGravity specific_gravity(Plato extract) {
  accept_extract(extract);
  return SpecificGravity::ratio(gravity_of_P(extract.degrees()));
}

Density water_density(Temperature t) {
  const double t_C = t.celsius();
  if (!(t_C >= -1e-9 && t_C <= 100.0 + 1e-9))
    throw base::InputError("temperature", fmt::format("{:.2f} °C", t_C), "0 to 100 °C");
  static const double scale =
      water_at_20C / spirit::hot_water_density(Temperature::celsius(20.0));
  return spirit::hot_water_density(t) * scale;
}

Density density(Plato extract, Temperature t) {
  return water_density(t) *
         (specific_gravity(extract).ratio() / relative_expansion(extract, t));
}

double relative_expansion(Plato extract, Temperature t) {
  const double d_K = t.celsius() - 20.0;
  return 1.0 + extract.degrees() * d_K * (3.2e-6 - 3.7e-8 * d_K);
}

Plato plato(const Wort& wort) {
  if (wort.mass().kilograms() <= 0.0) return Plato::degrees(0.0);
  return Plato::degrees(100.0 * (wort.extract / wort.mass()));
}

SpecificGravity specific_gravity(const Wort& wort) { return specific_gravity(plato(wort)); }

Volume volume(const Wort& wort, Temperature t) {
  return Volume::cubic_metres(wort.mass().kilograms() /
                              density(plato(wort), t).kilograms_per_cubic_metre());
}

Wort wort(Volume volume, Plato extract, Temperature t) {
  if (!(volume.litres() >= 0.0 && std::isfinite(volume.litres())))
    throw base::InputError("volume", fmt::format("{} L", volume.litres()), "zero or more");
  accept_wort_extract(extract);
  return wort(
      Mass::kilograms(density(extract, t).kilograms_per_cubic_metre() * volume.cubic_metres()),
      extract);
}

Wort wort(Mass mass, Plato extract) {
  if (!(mass.kilograms() >= 0.0 && std::isfinite(mass.kilograms())))
    throw base::InputError("mass", fmt::format("{} kg", mass.kilograms()), "zero or more");
  accept_wort_extract(extract);
  const Mass dissolved = mass * (extract.degrees() / 100.0);
  return {mass - dissolved, dissolved};
}

Mass water_to_reach(const Wort& wort, Plato to) {
  if (!(to.degrees() > 0.0 && to <= strongest))
    throw base::InputError("to", fmt::format("{:.3f} °P", to.degrees()), "above 0, to 40 °P");
  return wort.extract * (100.0 / to.degrees()) - wort.mass();
}

}  // namespace lynearm::wort
