#include "numeric/interpolate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/error.hpp"

namespace lynearm::numeric {
namespace {

// Weighted harmonic mean of the neighbouring secants; zero at an extremum of the data.
std::vector<double> monotone_slopes(const std::vector<double>& x,
                                    const std::vector<double>& y) {
  const std::size_t n = x.size();
  std::vector<double> slope(n);
  const auto secant = [&](std::size_t i) { return (y[i + 1] - y[i]) / (x[i + 1] - x[i]); };
  if (n == 2) return {secant(0), secant(0)};
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const double before = secant(i - 1);
    const double after = secant(i);
    if (before * after <= 0.0) continue;
    const double h0 = x[i] - x[i - 1];
    const double h1 = x[i + 1] - x[i];
    const double w0 = 2.0 * h1 + h0;
    const double w1 = h1 + 2.0 * h0;
    slope[i] = (w0 + w1) / (w0 / before + w1 / after);
  }
  slope[0] = secant(0);
  slope[n - 1] = secant(n - 2);
  return slope;
}

}  // namespace

Curve::Curve(std::vector<double> x, std::vector<double> y)
    : x_(std::move(x)), y_(std::move(y)) {
  base::ensure(x_.size() >= 2 && x_.size() == y_.size(), "a curve has two points or more");
  slope_ = monotone_slopes(x_, y_);
}

Curve::Curve(std::vector<double> x, std::vector<double> y, std::vector<double> slope)
    : x_(std::move(x)), y_(std::move(y)), slope_(std::move(slope)) {
  base::ensure(x_.size() >= 2 && x_.size() == y_.size() && x_.size() == slope_.size(),
               "a curve has two points or more, each with its slope");
}

std::size_t Curve::interval(double x) const {
  const double room = 1e-9 * (last() - first());
  // The words are made only for the refusal: a curve is asked thousands of times.
  if (!(x >= first() - room && x <= last() + room)) {
    base::ensure(false, fmt::format("{:.9g} lies inside the table {:.9g} to {:.9g}", x, first(),
                                    last()));
  }
  const auto above = std::upper_bound(x_.begin() + 1, x_.end() - 1, x);
  return static_cast<std::size_t>(above - x_.begin()) - 1;
}

double Curve::operator()(double x) const {
  const std::size_t i = interval(x);
  const double h = x_[i + 1] - x_[i];
  const double t = std::clamp((x - x_[i]) / h, 0.0, 1.0);
  const double s = 1.0 - t;
  return s * s * ((1.0 + 2.0 * t) * y_[i] + t * h * slope_[i]) +
         t * t * ((1.0 + 2.0 * s) * y_[i + 1] - s * h * slope_[i + 1]);
}

double Curve::slope(double x) const {
  const std::size_t i = interval(x);
  const double h = x_[i + 1] - x_[i];
  const double t = std::clamp((x - x_[i]) / h, 0.0, 1.0);
  const double s = 1.0 - t;
  return 6.0 * t * s * (y_[i + 1] - y_[i]) / h + s * (1.0 - 3.0 * t) * slope_[i] +
         t * (1.0 - 3.0 * s) * slope_[i + 1];
}

}  // namespace lynearm::numeric
