#include "vapour/congener_curve.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"

namespace lynearm::vapour {
namespace {

constexpr int intervals = 128;
// The steep end: volatilities over dilute wash change within x of about 0.1.
constexpr double spread = 0.3;

double stretched(double x) { return (1.0 + spread) * x / (x + spread); }
double unstretched(double s) { return spread * s / (1.0 + spread - s); }

// Fourth-order difference of the values around node i at equal steps; one-sided at the ends.
template <class Value>
double slope_at(int i, int n, Value value) {
  const bool at_the_end = i > n - 2;
  const int from_end = at_the_end ? n - i : i;
  const auto v = [&](int j) { return value(at_the_end ? n - j : j); };
  double slope = 0.0;
  if (from_end == 0) {
    slope = (-25.0 * v(0) + 48.0 * v(1) - 36.0 * v(2) + 16.0 * v(3) - 3.0 * v(4)) / 12.0;
  } else if (from_end == 1) {
    slope = (-3.0 * v(0) - 10.0 * v(1) + 18.0 * v(2) - 6.0 * v(3) + v(4)) / 12.0;
  } else {
    slope = (v(i - 2) - 8.0 * v(i - 1) + 8.0 * v(i + 1) - v(i + 2)) / 12.0;
  }
  return at_the_end ? -slope : slope;
}

}  // namespace

CongenerCurve::CongenerCurve(const BoilingCurve& boiling)
    : pressure_(boiling.pressure()), nodes_(intervals + 1) {
  for (int i = 0; i <= intervals; ++i) {
    const double x = i == intervals ? 1.0 : unstretched(static_cast<double>(i) / intervals);
    const auto liquid = units::MoleFraction::fraction(x);
    nodes_[static_cast<std::size_t>(i)].value =
        volatilities(liquid, boiling.temperature(liquid), pressure_);
  }
  for (int i = 0; i <= intervals; ++i) {
    for (std::size_t c = 0; c < congener_count; ++c) {
      nodes_[static_cast<std::size_t>(i)].slope[c] = slope_at(
          i, intervals, [&](int j) { return nodes_[static_cast<std::size_t>(j)].value[c]; });
    }
  }
}

void CongenerCurve::at(units::MoleFraction liquid, std::span<double, congener_count> k) const {
  const double x = liquid.fraction();
  if (!(x >= 0.0 && x <= 1.0)) {
    base::ensure(false, fmt::format("a mole fraction of {:.9g} lies between 0 and 1", x));
  }
  const double along = stretched(x) * intervals;
  const int i = std::min(static_cast<int>(along), intervals - 1);
  const Node& a = nodes_[static_cast<std::size_t>(i)];
  const Node& b = nodes_[static_cast<std::size_t>(i) + 1];
  const double t = along - i;
  const double s = 1.0 - t;
  const double a_value = s * s * (1.0 + 2.0 * t);
  const double b_value = t * t * (1.0 + 2.0 * s);
  const double a_slope = s * s * t;
  const double b_slope = -t * t * s;
  for (std::size_t c = 0; c < congener_count; ++c) {
    k[c] = a_value * a.value[c] + b_value * b.value[c] + a_slope * a.slope[c] +
           b_slope * b.slope[c];
  }
}

}  // namespace lynearm::vapour
