// A smooth curve through tabulated points: cubic Hermite, either with known slopes or with
// slopes chosen so that the curve is monotone wherever the points are (PCHIP of Fritsch and
// Butland). Looking up does not extrapolate: outside the table the end value is refused.
#pragma once

#include <vector>

namespace lynearm::numeric {

/// A piecewise cubic y(x). Cheap to evaluate, safe to share between threads.
class Curve {
 public:
  /// x   strictly ascending, at least two
  /// y   same length; slopes are chosen monotone
  Curve(std::vector<double> x, std::vector<double> y);
  /// As above with the slope at each point given.
  Curve(std::vector<double> x, std::vector<double> y, std::vector<double> slope);

  /// y at `x`. Throws BrokenInvariant outside [first, last] by more than rounding.
  [[nodiscard]] double operator()(double x) const;
  /// dy/dx at `x`.
  [[nodiscard]] double slope(double x) const;
  [[nodiscard]] double first() const { return x_.front(); }
  [[nodiscard]] double last() const { return x_.back(); }

 private:
  [[nodiscard]] std::size_t interval(double x) const;
  std::vector<double> x_, y_, slope_;
};

}  // namespace lynearm::numeric
