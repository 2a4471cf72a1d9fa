// The density formula at one temperature, folded into a polynomial in the mass fraction: the
// fast inner part of density(), for loops that gauge many readings. Bare doubles; no checks.
#pragma once

#include <array>

namespace lynearm::spirit {

/// rho(p) at a fixed temperature, with its slope.
class DensityAt {
 public:
  /// t_C   -20 to 40 (not checked)
  explicit DensityAt(double t_C);

  struct Value {
    double density_kgm3;
    double slope;  ///< d rho / d p, always negative in the range
  };
  /// p     mass fraction 0 to 1 (not checked)
  [[nodiscard]] Value operator()(double p) const;

  /// The mass fraction with this density; `guess` only speeds it up. The density must lie
  /// between water's and pure ethanol's at this temperature.
  [[nodiscard]] double mass_fraction(double density_kgm3, double guess) const;

 private:
  std::array<double, 12> coefficient_;
};

}  // namespace lynearm::spirit
