#include "vapour/pure.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/error.hpp"
#include "vapour/boiling_kernel.hpp"

namespace lynearm::vapour {
namespace {

// latent heat = C1 (1 - Tr)^(C2 + C3 Tr + C4 Tr^2), J/kmol in the table, J/mol here.
struct Dippr106 {
  double critical_K, c1, c2, c3, c4;
};
// Perry 8th ed., Table 2-150.
constexpr std::array<Dippr106, 2> latent_heats{{
    {514.0, 55789.0, 0.31245, 0.0, 0.0},          // ethanol
    {647.096, 52053.0, 0.3199, -0.212, 0.25795},  // water
}};

// cp = C1 + C2 T + C3 T^2 + C4 T^3 + C5 T^4, J/(kmol K).
using Dippr100 = std::array<double, 5>;
// Perry 8th ed., Table 2-153.
constexpr std::array<Dippr100, 2> heat_capacities{{
    {102640.0, -139.63, -0.030341, 0.0020386, 0.0},    // ethanol, 159.05-390 K
    {276370.0, -2090.1, 8.125, -0.014116, 9.3701e-6},  // water, 273.16-533.15 K
}};

constexpr std::size_t index(Substance substance) {
  return substance == Substance::ethanol ? 0 : 1;
}

const kernel::VapourPressure& equation(Substance substance) {
  return substance == Substance::ethanol ? kernel::ethanol_pressure : kernel::water_pressure;
}

double log_pressure(Substance substance, double t_K) {
  return equation(substance).log_Pa(t_K, std::log(t_K));
}

double log_pressure_slope(Substance substance, double t_K) {
  return equation(substance).slope_per_K(t_K);
}

// The integral of the heat capacity from 0 K of the polynomial, J/kmol.
double heat_integral(const Dippr100& c, double t_K) {
  double sum = 0.0;
  for (std::size_t k = c.size(); k-- > 0;) {
    sum = sum * t_K + c[k] / static_cast<double>(k + 1);
  }
  return sum * t_K;
}

}  // namespace

void require_in_range(units::Temperature t, const char* field) {
  if (t >= coldest && t <= hottest) return;
  throw base::InputError(field, fmt::format("{:.6g} °C", t.celsius()), "0 to 115 °C");
}

void require_in_range(units::Pressure p, const char* field) {
  if (p.kilopascals() >= 20.0 && p.kilopascals() <= 120.0) return;
  throw base::InputError(field, fmt::format("{:.6g} kPa", p.kilopascals()), "20 to 120 kPa");
}

void require_in_range(units::MoleFraction x, const char* field) {
  if (x.fraction() >= 0.0 && x.fraction() <= 1.0) return;
  throw base::InputError(field, fmt::format("{:.6g} mol %", x.percent()), "0 to 100 mol %");
}

units::Pressure vapour_pressure(Substance substance, units::Temperature t) {
  require_in_range(t, "temperature");
  return units::Pressure::pascals(std::exp(log_pressure(substance, t.kelvins())));
}

double log_slope_per_K(Substance substance, units::Temperature t) {
  require_in_range(t, "temperature");
  return log_pressure_slope(substance, t.kelvins());
}

units::Temperature boiling_point(Substance substance, units::Pressure p) {
  require_in_range(p, "pressure");
  const double wanted = std::log(p.pascals());
  double t_K = 355.0;
  // ln p is concave and steep in T: Newton's iteration has no other root to fall to.
  for (int i = 0; i < 30; ++i) {
    const double residual = log_pressure(substance, t_K) - wanted;
    if (std::abs(residual) < 1e-13) break;
    t_K -= residual / log_pressure_slope(substance, t_K);
  }
  const double residual = log_pressure(substance, t_K) - wanted;
  if (!(std::abs(residual) < 1e-12)) {
    throw base::NotConverged("boiling point", fmt::format("residual {:.3g} at {:.9g} K "
                                                          "from 355 K",
                                                          residual, t_K));
  }
  return units::Temperature::kelvins(t_K);
}

MolarEnthalpy latent_heat(Substance substance, units::Temperature t) {
  require_in_range(t, "temperature");
  const Dippr106& c = latent_heats[index(substance)];
  const double tr = t.kelvins() / c.critical_K;
  return MolarEnthalpy::joules_per_mole(c.c1 *
                                        std::pow(1.0 - tr, c.c2 + c.c3 * tr + c.c4 * tr * tr));
}

MolarHeatCapacity liquid_heat_capacity(Substance substance, units::Temperature t) {
  require_in_range(t, "temperature");
  const Dippr100& c = heat_capacities[index(substance)];
  const double t_K = t.kelvins();
  const double J_per_kmol_K = c[0] + t_K * (c[1] + t_K * (c[2] + t_K * (c[3] + t_K * c[4])));
  return MolarHeatCapacity::joules_per_mole_kelvin(J_per_kmol_K * 1e-3);
}

MolarEnthalpy liquid_enthalpy(Substance substance, units::Temperature t) {
  require_in_range(t, "temperature");
  const Dippr100& c = heat_capacities[index(substance)];
  const double J_per_kmol = heat_integral(c, t.kelvins()) - heat_integral(c, 273.15);
  return MolarEnthalpy::joules_per_mole(J_per_kmol * 1e-3);
}

}  // namespace lynearm::vapour
