// The arithmetic of boiling in plain doubles, for where it is asked a million times: vapour
// pressures, activity coefficients and their slopes with temperature, and the boiling point by
// Newton's iteration. No range is checked here: pure.hpp, activity.hpp and equilibrium.hpp are
// the same figures behind checked borders, and everybody else uses those. (The regression of
// the activity model asks here, for measurements below 20 kPa.)
#pragma once

#include <cmath>

namespace lynearm::vapour::kernel {

/// ln(p/Pa) = c1 + c2/T + c3 ln T + c4 T² (DIPPR 101).
struct VapourPressure {
  double c1, c2, c3, c4;

  [[nodiscard]] double log_Pa(double t_K, double log_t) const {
    return c1 + c2 / t_K + c3 * log_t + c4 * t_K * t_K;
  }
  [[nodiscard]] double slope_per_K(double t_K) const {
    return -c2 / (t_K * t_K) + c3 / t_K + 2.0 * c4 * t_K;
  }
};
// Perry 8th ed., Table 2-8.
inline constexpr VapourPressure ethanol_pressure{73.304, -7122.3, -7.1424, 2.8853e-6};
inline constexpr VapourPressure water_pressure{73.649, -7258.2, -7.3037, 4.1653e-6};

/// Of the NRTL equation with tau = a + b/T. In activity.hpp stand the house's.
struct Nrtl {
  double a12, b12_K, a21, b21_K, alpha;
};

/// ln(gamma) of both and its derivatives with temperature.
struct LogActivity {
  double ethanol, water, ethanol_per_K, water_per_K;
};

[[nodiscard]] inline LogActivity log_activity(const Nrtl& p, double x1, double t_K) {
  const double x2 = 1.0 - x1;
  const double inverse = 1.0 / t_K;
  const double tau12 = p.a12 + p.b12_K * inverse;
  const double tau21 = p.a21 + p.b21_K * inverse;
  const double g12 = std::exp(-p.alpha * tau12);
  const double g21 = std::exp(-p.alpha * tau21);
  const double a = 1.0 / (x1 + x2 * g21);
  const double b = 1.0 / (x2 + x1 * g12);
  const double r12 = g12 * b;
  const double r21 = g21 * a;
  const double s12 = r12 * b;  // G12 / (x2 + x1 G12)²
  const double s21 = r21 * a;
  // With temperature: tau' = -b/T², G' = -alpha tau' G.
  const double dtau12 = -p.b12_K * inverse * inverse;
  const double dtau21 = -p.b21_K * inverse * inverse;
  const double dln12 = -p.alpha * dtau12;  // G12' / G12
  const double dln21 = -p.alpha * dtau21;
  const double d_r21_squared = 2.0 * r21 * s21 * x1 * dln21;
  const double d_r12_squared = 2.0 * r12 * s12 * x2 * dln12;
  const double d_s12 = s12 * dln12 * (x2 - x1 * g12) * b;
  const double d_s21 = s21 * dln21 * (x1 - x2 * g21) * a;
  const double of_ethanol = tau21 * r21 * r21 + tau12 * s12;
  const double of_water = tau12 * r12 * r12 + tau21 * s21;
  return {
      x2 * x2 * of_ethanol, x1 * x1 * of_water,
      x2 * x2 * (dtau21 * r21 * r21 + tau21 * d_r21_squared + dtau12 * s12 + tau12 * d_s12),
      x1 * x1 * (dtau12 * r12 * r12 + tau12 * d_r12_squared + dtau21 * s21 + tau21 * d_s21)};
}

struct Boil {
  double t_K = 0.0;
  double vapour = 0.0;    ///< mole fraction of ethanol
  double residual = 1.0;  ///< sum of partial pressures over P, less 1
  int iterations = 0;
};

/// The residual that a boiling point must reach.
inline constexpr double boil_residual = 1e-11;

/// Boiling point and vapour of a liquid x at a pressure. `residual` is to be looked at: over
/// boil_residual, the iteration has failed (not seen from 4 to 120 kPa).
[[nodiscard]] Boil boil(const Nrtl& parameters, double x, double pressure_Pa);
/// The same from a start close by, which saves a turn.
[[nodiscard]] Boil boil_near(const Nrtl& parameters, double x, double pressure_Pa,
                             double start_K);

}  // namespace lynearm::vapour::kernel
