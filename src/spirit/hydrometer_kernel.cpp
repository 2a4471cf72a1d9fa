#include "spirit/hydrometer_kernel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/error.hpp"

namespace lynearm::spirit {
namespace {

// The polynomial through (x, y), as coefficients of the powers: Newton's divided differences,
// multiplied out.
template <std::size_t N>
std::array<double, N> through(const std::array<double, N>& x, std::array<double, N> y) {
  for (std::size_t order = 1; order < N; ++order) {
    for (std::size_t k = N; k-- > order;) y[k] = (y[k] - y[k - 1]) / (x[k] - x[k - order]);
  }
  std::array<double, N> c{};
  for (std::size_t k = N; k-- > 0;) {
    for (std::size_t i = N; --i > 0;) c[i] = c[i - 1] - x[k] * c[i];
    c[0] = y[k] - x[k] * c[0];
  }
  return c;
}

void check(const char* field, bool holds, double value, const char* unit,
           const char* accepted) {
  if (!holds) throw base::InputError(field, fmt::format("{:.4f}{}", value, unit), accepted);
}

bool in_range(double t_C) { return t_C >= coldest.celsius() && t_C <= warmest.celsius(); }

void check_range(double t_C) {
  check("at", in_range(t_C), t_C, " °C",
        "-20 to 40 °C, the range of the density formula (OIML R 22)");
}

void check_strength(double p) {
  check("strength", p >= 0.0 && p <= 1.0, 100.0 * p, " % mass", "0 to 100 % by mass");
}

}  // namespace

MarkCurve::MarkCurve(const Marks& marks) : first_(ends_of(marks.scale()).first) {
  const double figures_per_stretch =
      (ends_of(marks.scale()).last - first_) / static_cast<double>(stretches);
  stretches_per_figure_ = 1.0 / figures_per_stretch;
  // Chebyshev's points in a stretch, which goes from -1/2 to 1/2.
  std::array<double, terms> at{};
  for (std::size_t k = 0; k < terms; ++k) {
    at[k] = -0.5 * std::cos(std::numbers::pi * (static_cast<double>(k) + 0.5) / terms);
  }
  for (std::size_t i = 0; i < stretches; ++i) {
    const auto figure = [&](double x) {
      return first_ + (static_cast<double>(i) + 0.5 + x) * figures_per_stretch;
    };
    std::array<double, terms> density{};
    for (std::size_t k = 0; k < terms; ++k) density[k] = marks.density_kgm3(figure(at[k]));
    coefficients_[i] = through(at, density);
    // Put back where it was not made to fit, at the ends above all.
    constexpr double worst_kgm3 = 1e-12;
    for (const double x : {-0.499999, 0.0, 0.499999}) {
      const double off = density_kgm3(figure(x)) - marks.density_kgm3(figure(x));
      base::ensure(std::abs(off) < worst_kgm3, "the curve through the marks meets them");
    }
  }
}

double MarkCurve::density_kgm3(double figure) const {
  const double along = (figure - first_) * stretches_per_figure_;
  const int stretch = std::min(static_cast<int>(along), static_cast<int>(stretches) - 1);
  const std::array<double, terms>& c = coefficients_[static_cast<std::size_t>(stretch)];
  const double x = along - stretch - 0.5;
  const double y = x * x;
  const double even = (((c[8] * y + c[6]) * y + c[4]) * y + c[2]) * y + c[0];
  const double odd = (((c[9] * y + c[7]) * y + c[5]) * y + c[3]) * y + c[1];
  return even + x * odd;
}

HydrometerKernel::HydrometerKernel(Scale scale, const Hydrometer& hydrometer)
    : marks_(scale, hydrometer), ends_(ends_of(scale)), curve_(marks_) {}

Found HydrometerKernel::mass_fraction(double figure, double t_C) const {
  if (!in_range(t_C)) return {0.0, Fit::off_the_formula};
  return Column(*this, t_C).mass_fraction(figure);
}

double HydrometerKernel::shown_figure(double p, double t_C) const {
  return column(t_C).shown_figure(p);
}

HydrometerKernel::Column HydrometerKernel::column(double t_C) const {
  check_range(t_C);
  return {*this, t_C};
}

HydrometerKernel::Column::Column(const HydrometerKernel& kernel, double t_C)
    : kernel_(&kernel), at_(t_C), glass_(kernel.marks_.glass(t_C)), per_glass_(1.0 / glass_) {}

Found HydrometerKernel::Column::mass_fraction(double figure) const {
  const ScaleEnds& ends = kernel_->ends_;
  if (!(figure >= ends.first && figure <= ends.last)) return {0.0, Fit::off_the_scale};
  return at_.mass_fraction(kernel_->curve_.density_kgm3(figure) * per_glass_);
}

double HydrometerKernel::Column::shown_figure(double p) const {
  check_strength(p);
  return kernel_->marks_.figure(at_(p).density_kgm3 * glass_);
}

}  // namespace lynearm::spirit
