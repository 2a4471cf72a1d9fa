// The density formula at one temperature, with its slope and its inverse: the fast inner part
// of all gauging, for loops over many readings. Bare doubles; no checks.
//
// As printed, the terms of the formula reach 750,000 kg/m³ and cancel to some 900: a double
// loses three digits on the way. Here the same polynomial is written about the half-way
// mixture, in z = 2 p - 1 from -1 to 1, where all its terms together make 1,377 kg/m³. That is
// exact algebra on the printed coefficients (oiml_r22.hpp), not a fit.
#pragma once

#include <array>

namespace lynearm::spirit {

/// Whether there is a mixture so heavy, and if not, on which side it fails. The last two are
/// said by instruments only.
enum class Fit {
  mixture,
  denser_than_water,
  lighter_than_ethanol,
  off_the_scale,   ///< no such figure is marked on the instrument
  off_the_formula  ///< a temperature outside -20 to 40 °C
};

/// A mixture that was looked for. Not an optional, which GCC 12 hands back through memory: a
/// third of the whole time of a search.
struct Found {
  double mass_fraction;  ///< the nearer end, or zero, when there is none
  Fit fit;
};

/// rho(p) at a fixed temperature. Cheap to make: some 30 multiplications.
class DensityAt {
 public:
  /// t_C   -20 to 40 (not checked)
  explicit DensityAt(double t_C);

  struct Value {
    double density_kgm3;
    double slope;  ///< d rho / d p, always negative in the range: at most -6.0 kg/m³
  };
  /// p          mass fraction 0 to 1 (not checked)
  /// accuracy   within 3.1e-13 kg/m³ of the formula in exact arithmetic
  ///            (tests/spirit/density_test.cpp)
  [[nodiscard]] Value operator()(double p) const;

  /// The two ends of what a mixture can weigh: p = 0 and p = 1.
  [[nodiscard]] double water_kgm3() const { return water_kgm3_; }
  [[nodiscard]] double pure_ethanol_kgm3() const { return pure_ethanol_kgm3_; }

  /// The mass fraction with this density. A density past an end by no more than 1e-9 kg/m³,
  /// what a sum may be off, counts as the end. Halley's iteration from a table of starts: two
  /// evaluations of the formula, and a few more inside a bracket below -10 °C around p 0.19,
  /// where the density of the (frozen) mixture hardly changes with p.
  ///
  /// accuracy   within 3e-14 of the exact root of the formula, 3e-15 from -10 °C up
  ///            (tests/spirit/density_test.cpp)
  [[nodiscard]] Found mass_fraction(double density_kgm3) const;

  /// As above from a start of the caller's own, which only speeds it up. The density must lie
  /// between the two ends.
  [[nodiscard]] double mass_fraction(double density_kgm3, double guess) const;

  /// Puts a mass fraction that was found back into the formula. Throws NotConverged when its
  /// density is not the one looked for, to 2e-9 kg/m³.
  void put_back(double p, double density_kgm3) const;

 private:
  [[nodiscard]] double root(double density_kgm3, double start_z) const;
  [[nodiscard]] double bracketed_root(double density_kgm3, double start_z) const;

  [[noreturn]] void not_found(double density_kgm3, double p) const;

  std::array<double, 12> coefficient_{};  // of the powers of z
  double water_kgm3_ = 0.0, pure_ethanol_kgm3_ = 0.0;
  double t_C_;
};

}  // namespace lynearm::spirit
