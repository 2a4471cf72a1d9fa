#include "vapour/equilibrium.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "vapour/boiling_kernel.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

// Relative volatility less one: zero at the azeotrope, and only there.
double excess_volatility(double x, units::Pressure p, const NrtlParameters& parameters) {
  const double t_K =
      bubble_point(units::MoleFraction::fraction(x), p, parameters).temperature.kelvins();
  const kernel::LogActivity gamma = kernel::log_activity(parameters, x, t_K);
  const double log_t = std::log(t_K);
  return std::expm1(gamma.ethanol + kernel::ethanol_pressure.log_Pa(t_K, log_t) - gamma.water -
                    kernel::water_pressure.log_Pa(t_K, log_t));
}

}  // namespace

kernel::Boil kernel::boil(const Nrtl& parameters, double x, double pressure_Pa) {
  // A start within 0.5 K from 20 to 120 kPa (RMS 0.12 K), fitted to the solutions themselves:
  // water's boiling point by 1/T straight in ln P, and its fall with ethanol.
  const double over = std::log(pressure_Pa / 101325.0);
  return boil_near(parameters, x, pressure_Pa,
                   1.0 / (0.0026791 - 0.0001989 * over) -
                       x * (22.34 + 1.23 * x + 2.5 * over) / (x + 0.0611 - 0.0073 * over));
}

kernel::Boil kernel::boil_near(const Nrtl& parameters, double x, double pressure_Pa,
                               double start_K) {
  const double log_P = std::log(pressure_Pa);
  double t_K = start_K;
  Boil found;
  // The logarithm of the sum of partial pressures is nearly straight in 1/T, so Newton's
  // iteration in 1/T with the exact slope mostly takes three turns from half a kelvin.
  for (found.iterations = 1; found.iterations <= 50; ++found.iterations) {
    const LogActivity gamma = log_activity(parameters, x, t_K);
    const double log_t = std::log(t_K);
    // Each partial pressure over P, not the pressures themselves: one exponential each.
    const double ethanol =
        x * std::exp(gamma.ethanol + ethanol_pressure.log_Pa(t_K, log_t) - log_P);
    const double water =
        (1.0 - x) * std::exp(gamma.water + water_pressure.log_Pa(t_K, log_t) - log_P);
    const double sum = ethanol + water;
    found.t_K = t_K;
    found.vapour = ethanol / sum;
    found.residual = sum - 1.0;
    // Rounding in ln p, a sum of terms near 70, ends at about 3e-14.
    if (std::abs(found.residual) < 2e-13) break;
    const double slope_per_K =
        found.vapour * (gamma.ethanol_per_K + ethanol_pressure.slope_per_K(t_K)) +
        (1.0 - found.vapour) * (gamma.water_per_K + water_pressure.slope_per_K(t_K));
    // ln(1 + r), by three terms where the next turn mends what they leave.
    const double r = found.residual;
    const double log_sum = std::abs(r) < 0.05 ? r * (1.0 - r * (0.5 - r / 3.0)) : std::log1p(r);
    const double next_K = t_K / (1.0 + log_sum / (slope_per_K * t_K));
    if (!(next_K > 200.0 && next_K < 500.0)) break;
    t_K = next_K;
  }
  return found;
}

BubblePoint bubble_point(units::MoleFraction liquid, units::Pressure p,
                         const NrtlParameters& parameters) {
  require_in_range(liquid, "liquid");
  require_in_range(p, "pressure");
  const kernel::Boil found = kernel::boil(parameters, liquid.fraction(), p.pascals());
  if (!(std::abs(found.residual) < kernel::boil_residual)) {
    throw base::NotConverged(
        "bubble point",
        fmt::format("x {:.9g} at {:.6g} kPa: residual {:.3g} at {:.9g} K after {} turns",
                    liquid.fraction(), p.kilopascals(), found.residual, found.t_K,
                    found.iterations));
  }
  return {units::Temperature::kelvins(found.t_K), units::MoleFraction::fraction(found.vapour),
          found.residual, found.iterations};
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

Azeotrope azeotrope(units::Pressure p, const NrtlParameters& parameters) {
  require_in_range(p, "pressure");
  const numeric::Root root = numeric::root_between(
      [&](double x) { return excess_volatility(x, p, parameters); }, 0.5, 1.0, "azeotrope");
  const auto x = units::MoleFraction::fraction(root.value);
  return {x, bubble_point(x, p, parameters).temperature};
}

}  // namespace lynearm::vapour
