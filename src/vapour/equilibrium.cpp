#include "vapour/equilibrium.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "vapour/activity.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

struct Partial {
  double ethanol_Pa, water_Pa;
  [[nodiscard]] double sum_Pa() const { return ethanol_Pa + water_Pa; }
};

Partial partial_pressures(units::MoleFraction liquid, units::Temperature t) {
  const ActivityCoefficients gamma = activity_coefficients(liquid, t);
  const double x = liquid.fraction();
  return {x * gamma.ethanol * vapour_pressure(Substance::ethanol, t).pascals(),
          (1.0 - x) * gamma.water * vapour_pressure(Substance::water, t).pascals()};
}

// Relative volatility less one: zero at the azeotrope, and only there.
double excess_volatility(double x, units::Pressure p) {
  const auto liquid = units::MoleFraction::fraction(x);
  const units::Temperature t = bubble_point(liquid, p).temperature;
  const ActivityCoefficients gamma = activity_coefficients(liquid, t);
  return gamma.ethanol * vapour_pressure(Substance::ethanol, t).pascals() /
             (gamma.water * vapour_pressure(Substance::water, t).pascals()) -
         1.0;
}

}  // namespace

BubblePoint bubble_point(units::MoleFraction liquid, units::Pressure p) {
  require_in_range(liquid, "liquid");
  require_in_range(p, "pressure");
  // ln(sum of partial pressures) is nearly straight in 1/T, with the slope of the pure vapour
  // pressures; the activity coefficients move little, so Newton with that slope settles in a
  // few turns from anywhere between the two pure boiling points.
  const double x = liquid.fraction();
  const double kPa = p.kilopascals();
  double t_K = 373.15 - 20.0 * x / (x + 0.1) + 27.5 * std::log(kPa / 101.325);
  t_K = std::fmin(std::fmax(t_K, 300.0), 380.0);
  double residual = 1.0;
  int iterations = 0;
  Partial partial{};
  for (; iterations < 50; ++iterations) {
    const auto t = units::Temperature::kelvins(t_K);
    partial = partial_pressures(liquid, t);
    residual = partial.sum_Pa() / p.pascals() - 1.0;
    if (std::abs(residual) < 1e-13) break;
    const double share = partial.ethanol_Pa / partial.sum_Pa();
    const double slope = share * log_slope_per_K(Substance::ethanol, t) +
                         (1.0 - share) * log_slope_per_K(Substance::water, t);
    const double step_K = std::log1p(residual) / slope;
    t_K -= step_K;
    if (std::abs(step_K) < 1e-13 * t_K) break;
  }
  if (!(std::abs(residual) < 1e-11)) {
    throw base::NotConverged("bubble point",
                             fmt::format("x {:.9g} at {:.6g} kPa: residual {:.3g} at {:.9g} K "
                                         "after {} turns",
                                         x, kPa, residual, t_K, iterations));
  }
  return {units::Temperature::kelvins(t_K),
          units::MoleFraction::fraction(partial.ethanol_Pa / partial.sum_Pa()), residual,
          iterations};
}

DewPoint dew_point(units::MoleFraction vapour, units::Pressure p) {
  require_in_range(vapour, "vapour");
  require_in_range(p, "pressure");
  const double y = vapour.fraction();
  const auto miss = [&](double x) {
    return bubble_point(units::MoleFraction::fraction(x), p).vapour.fraction() - y;
  };
  const numeric::Root root = numeric::root_between(miss, 0.0, 1.0, "dew point",
                                                   {.width = 1e-15, .most_iterations = 200});
  base::ensure(std::abs(root.residual) < 1e-12, "a dew point gives back its vapour");
  const auto liquid = units::MoleFraction::fraction(root.value);
  return {bubble_point(liquid, p).temperature, liquid, root.residual, root.iterations};
}

Azeotrope azeotrope(units::Pressure p) {
  require_in_range(p, "pressure");
  const numeric::Root root = numeric::root_between(
      [&](double x) { return excess_volatility(x, p); }, 0.5, 1.0, "azeotrope");
  const auto x = units::MoleFraction::fraction(root.value);
  return {x, bubble_point(x, p).temperature};
}

}  // namespace lynearm::vapour
