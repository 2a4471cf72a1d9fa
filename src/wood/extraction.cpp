#include "wood/extraction.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "base/error.hpp"
#include "numeric/root.hpp"

namespace lynearm::wood {
namespace {

using units::Duration;
using units::Share;
using units::Volume;

constexpr double pi = std::numbers::pi;
constexpr double gas_constant_kJ = 8.314462618e-3;
constexpr double diffusivity_m2_per_s = 1e-12;
constexpr double reference_K = 291.15;
constexpr double activation_kJ = 25.0;
constexpr double surface_pool = 0.10;  // of the eight-year extract of the 200 L cask
constexpr double surface_days = 14.0;
const double eight_years_s = Duration::years(8.0).seconds();

/// Share of a slab's pool that has left through one face, the other closed.
double slab_released(double diffusion_over_depth2) {
  const double tau = diffusion_over_depth2;
  // Either form is exact to 1e-8 where they meet.
  if (tau < 0.06) return 2.0 * std::sqrt(tau / pi);
  double left = 0.0;
  for (int n = 0; n < 6; ++n) {
    const double odd = 2.0 * n + 1.0;
    left += 8.0 / (pi * pi * odd * odd) * std::exp(-odd * odd * pi * pi / 4.0 * tau);
  }
  return 1.0 - left;
}

/// Extract for a unit of surface, against the 200 L cask at eight years.
double per_area(double time_s, double depth_m, double hurry) {
  const double diffused_m2 = diffusivity_m2_per_s * hurry * time_s;
  // The pool of wood `depth` deep, from the slope of the root: (1 - surface) sqrt(t/8 y).
  const double pool = (1.0 - surface_pool) * 0.5 * depth_m *
                      std::sqrt(pi / (diffusivity_m2_per_s * eight_years_s));
  return surface_pool * -std::expm1(-hurry * time_s / 86400.0 / surface_days) +
         pool * slab_released(diffused_m2 / (depth_m * depth_m));
}

double pool_of_fill(int fill) {
  switch (fill) {
    case 1:
      return 1.0;
    case 2:
      return 0.45;
    case 3:
      return 0.25;
    default:
      return 0.15;
  }
}

void accept(const char* field, double value, double low, double high, const char* unit) {
  if (!(value >= low && value <= high))
    throw base::InputError(field, fmt::format("{:.4g} {}", value, unit),
                           fmt::format("{:g} to {:g} {}", low, high, unit));
}

void accept(const Wood& wood, const Rest& rest) {
  accept("wood.surface", wood.surface.square_centimetres_per_litre(), 0.01, 2000.0, "cm²/L");
  accept("wood.depth", wood.depth.millimetres(), 0.5, 60.0, "mm");
  accept("wood.richness", wood.richness, 0.05, 5.0, "");
  accept("wood.fill", wood.fill, 1.0, 10.0, "");
  accept("rest.t", rest.t.celsius(), 0.0, 40.0, "°C");
  accept("rest.strength", rest.strength.percent(), 20.0, 80.0, "%vol");
}

double unchecked_extract(const Wood& wood, double time_s, const Rest& rest) {
  const double hurry =
      std::exp(-activation_kJ / gas_constant_kJ * (1.0 / rest.t.kelvins() - 1.0 / reference_K));
  const double strength = 1.0 - 0.006 * (rest.strength.percent() - 60.0);
  return times_a_200L_cask(wood.surface) * wood.richness * pool_of_fill(wood.fill) * strength *
         per_area(time_s, wood.depth.metres(), hurry);
}

}  // namespace

Wood staves(const Stave& stave, double count, Volume spirit) {
  return {surface(stave, count, spirit), stave.thickness * 0.5};
}

Wood cask(Volume volume) { return {cask_surface(volume)}; }

Wood cask(const Cask& measured) { return {surface(measured), measured.stave}; }

Share extract(const Wood& wood, Duration time, const Rest& rest) {
  accept(wood, rest);
  if (!(time.seconds() >= 0.0 && std::isfinite(time.seconds())))
    throw base::InputError("time", fmt::format("{} days", time.days()), "zero or more");
  return Share::fraction(unchecked_extract(wood, time.seconds(), rest));
}

std::optional<Duration> time_to(Share target, const Wood& wood, const Rest& rest) {
  accept(wood, rest);
  if (!(target.fraction() >= 0.0 && std::isfinite(target.fraction())))
    throw base::InputError("target", fmt::format("{}", target.fraction()), "zero or more");
  if (target.fraction() == 0.0) return Duration{};
  const double most_s = Duration::years(100.0).seconds();
  if (unchecked_extract(wood, most_s, rest) <= target.fraction()) return std::nullopt;
  // In the root of time the curve is nearly straight.
  const auto root = numeric::root_between(
      [&](double root_s) {
        return unchecked_extract(wood, root_s * root_s, rest) - target.fraction();
      },
      0.0, std::sqrt(most_s), "time to an extract");
  return Duration::seconds(root.value * root.value);
}

Share extract_of_200L_cask(Duration years) {
  return extract(cask(Volume::litres(200.0)), years);
}

std::optional<Duration> cask_years_of(Share extract) {
  return time_to(extract, cask(Volume::litres(200.0)));
}

double staves_for(Share target, Duration time, const Stave& stave, Volume spirit,
                  const Wood& like, const Rest& rest) {
  Wood one = like;
  one.surface = units::AreaPerVolume::square_centimetres_per_litre(1.0);
  one.depth = stave.thickness * 0.5;
  // Extract is proportional to surface.
  const double given = extract(one, time, rest).fraction();
  const double cm2_per_L = given > 0.0 ? target.fraction() / given : 1e9;
  if (!(cm2_per_L <= 2000.0))
    throw base::InputError("time", fmt::format("{:.0f} days", time.days()),
                           "longer, or less extract: this would take over 2000 cm² of wood to "
                           "the litre");
  return cm2_per_L / surface(stave, 1.0, spirit).square_centimetres_per_litre();
}

}  // namespace lynearm::wood
