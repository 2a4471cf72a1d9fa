#include "vapour/activity.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/error.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

// Larkin 1975: HE = x (1-x) sum_m (b + c T + d T^2) x^m, m = 0, 0.5, 1.5, 2.5, 4.5. The two
// large b stood rounded to six digits (-1.40489e6, 1.09132e6) in the copy at hand, which costs
// 0.6 J/mol; their seventh digits were recovered from values computed with the unrounded ones
// (tests/vapour/activity_test.cpp).
struct LarkinRow {
  double b, c, d;
};
constexpr std::array<LarkinRow, 5> larkin{{
    {-363868.0, 1838.29, -2.32763},
    {925982.0, -4835.86, 6.37228},
    {-1404894.0, 7516.61, -10.1128},
    {1091318.0, -5894.98, 7.98868},
    {-279986.0, 1505.57, -2.03127},
}};

void require_mixing_range(units::MoleFraction ethanol, units::Temperature t) {
  require_in_range(ethanol, "ethanol");
  // Half a millikelvin of room, for 25 °C that came through a conversion.
  constexpr auto room = units::TemperatureChange::kelvins(5e-4);
  if (t < coldest_mixing - room || t > hottest_mixing + room) {
    throw base::InputError("temperature", fmt::format("{:.6g} °C", t.celsius()),
                           "25 to 110 °C");
  }
}

// The sum over m with the bracket evaluated by `term`, times x (1-x).
template <class Term>
double larkin_sum(double x, Term term) {
  const double root = std::sqrt(x);
  const double x15 = x * root;
  const double x25 = x * x15;
  const std::array<double, 5> power{1.0, root, x15, x25, x25 * x * x};
  double sum = 0.0;
  for (std::size_t m = 0; m < larkin.size(); ++m) sum += term(larkin[m]) * power[m];
  return x * (1.0 - x) * sum;
}

}  // namespace

ActivityCoefficients activity_coefficients(units::MoleFraction ethanol, units::Temperature t,
                                           const NrtlParameters& parameters) {
  require_in_range(ethanol, "ethanol");
  require_in_range(t, "temperature");
  const kernel::LogActivity ln =
      kernel::log_activity(parameters, ethanol.fraction(), t.kelvins());
  return {std::exp(ln.ethanol), std::exp(ln.water)};
}

ActivitySlopes activity_slopes(units::MoleFraction ethanol, units::Temperature t,
                               const NrtlParameters& parameters) {
  require_in_range(ethanol, "ethanol");
  require_in_range(t, "temperature");
  const double t_K = t.kelvins();
  const double x1 = ethanol.fraction();
  const double x2 = 1.0 - x1;
  const double tau12 = parameters.a12 + parameters.b12_K / t_K;
  const double tau21 = parameters.a21 + parameters.b21_K / t_K;
  const double g12 = std::exp(-parameters.alpha * tau12);
  const double g21 = std::exp(-parameters.alpha * tau21);
  const double a = x1 + x2 * g21;
  const double b = x2 + x1 * g12;
  const double da = 1.0 - g21;
  const double db = g12 - 1.0;
  const double s1 = tau21 * g21 * g21 / (a * a) + tau12 * g12 / (b * b);
  const double ds1 =
      -2.0 * tau21 * g21 * g21 * da / (a * a * a) - 2.0 * tau12 * g12 * db / (b * b * b);
  const double s2 = tau12 * g12 * g12 / (b * b) + tau21 * g21 / (a * a);
  const double ds2 =
      -2.0 * tau12 * g12 * g12 * db / (b * b * b) - 2.0 * tau21 * g21 * da / (a * a * a);
  const kernel::LogActivity ln = kernel::log_activity(parameters, x1, t_K);
  return {-2.0 * x2 * s1 + x2 * x2 * ds1, 2.0 * x1 * s2 + x1 * x1 * ds2, ln.ethanol_per_K,
          ln.water_per_K};
}

MolarEnthalpy excess_enthalpy(units::MoleFraction ethanol, units::Temperature t) {
  require_mixing_range(ethanol, t);
  const double t_K = t.kelvins();
  return MolarEnthalpy::joules_per_mole(larkin_sum(
      ethanol.fraction(), [t_K](const LarkinRow& r) { return r.b + t_K * (r.c + t_K * r.d); }));
}

MolarHeatCapacity excess_heat_capacity(units::MoleFraction ethanol, units::Temperature t) {
  require_mixing_range(ethanol, t);
  const double t_K = t.kelvins();
  return MolarHeatCapacity::joules_per_mole_kelvin(larkin_sum(
      ethanol.fraction(), [t_K](const LarkinRow& r) { return r.c + 2.0 * t_K * r.d; }));
}

}  // namespace lynearm::vapour
