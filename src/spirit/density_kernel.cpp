#include "spirit/density_kernel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "base/error.hpp"
#include "spirit/oiml_r22.hpp"

namespace lynearm::spirit {
namespace {

using Polynomial = std::array<double, 12>;

// Two doubles that the processor adds and multiplies at once, each by the ordinary rules.
using Pair [[gnu::vector_size(16)]] = double;

// The printed polynomial in p, rewritten in z with p = (1 + z)/2. Halving is exact; moving the
// origin takes additions only, done here with twice the digits of a double (Knuth's two-sum
// keeps what each addition rounds away), so every coefficient is right to its last digit.
constexpr Polynomial about_half(const Polynomial& in_p) {
  struct Long {
    double head, tail;
  };
  std::array<Long, 12> c{};
  double scale = 1.0;
  for (std::size_t k = 0; k < 12; ++k, scale *= 0.5) c[k] = {in_p[k] * scale, 0.0};
  for (std::size_t done = 0; done < 11; ++done) {
    for (std::size_t k = 11; k-- > done;) {
      const double sum = c[k].head + c[k + 1].head;
      const double taken = sum - c[k].head;
      const double lost = (c[k].head - (sum - taken)) + (c[k + 1].head - taken);
      const double tail = lost + (c[k].tail + c[k + 1].tail);
      c[k] = {sum + tail, tail - ((sum + tail) - sum)};
    }
  }
  Polynomial in_z{};
  for (std::size_t k = 0; k < 12; ++k) in_z[k] = c[k].head;
  return in_z;
}

template <std::size_t N>
constexpr Polynomial without_constant(double constant, const std::array<double, N>& c) {
  Polynomial in_p{constant};
  for (std::size_t k = 0; k < N; ++k) in_p[k + 1] = c[k];
  return about_half(in_p);
}

// What stands with each power of (t - 20): the rows of the folding.
constexpr std::array<Polynomial, 7> rows = {
    about_half(oiml_r22::A),
    without_constant(oiml_r22::B[0], oiml_r22::C1),
    without_constant(oiml_r22::B[1], oiml_r22::C2),
    without_constant(oiml_r22::B[2], oiml_r22::C3),
    without_constant(oiml_r22::B[3], oiml_r22::C4),
    without_constant(oiml_r22::B[4], oiml_r22::C5),
    Polynomial{oiml_r22::B[5]},
};

// The coefficients First and First + 1 of z, of this degree in d; always as pairs, because a
// processor does two at a time.
template <std::size_t First, std::size_t Degree>
void fold(Polynomial& to, double d) {
  Pair sum{rows[Degree][First], rows[Degree][First + 1]};
  for (std::size_t i = Degree; i-- > 0;)
    sum = sum * d + Pair{rows[i][First], rows[i][First + 1]};
  to[First] = sum[0];
  to[First + 1] = sum[1];
}

// Density of water (z = -1) and of pure ethanol (z = 1) beside each power of (t - 20).
constexpr std::array<Pair, 7> end_rows = [] {
  std::array<Pair, 7> ends{};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    double even = 0.0;
    double odd = 0.0;
    for (std::size_t k = 12; k > 0;) {
      odd += rows[i][--k];
      even += rows[i][--k];
    }
    ends[i] = Pair{even - odd, even + odd};
  }
  return ends;
}();

// Density with its slope and half its curvature in z.
struct Bend {
  double density_kgm3, slope, half_curvature;
};

// With z² = y the polynomial is E(y) + z O(y): two of half the length, side by side.
[[gnu::always_inline]] inline Bend bend(const Polynomial& c, double z) {
  const double y = z * z;
  // The two, and their first and half their second derivative in y.
  Pair f{c[10], c[11]};
  Pair f1 = f;
  f = f * y + Pair{c[8], c[9]};
  Pair f2 = f1;
  f1 = f1 * y + f;
  f = f * y + Pair{c[6], c[7]};
  for (std::size_t k = 6; k > 0;) {
    k -= 2;
    f2 = f2 * y + f1;
    f1 = f1 * y + f;
    f = f * y + Pair{c[k], c[k + 1]};
  }
  return {f[0] + z * f[1], f[1] + 2.0 * z * (f1[0] + z * f1[1]),
          (f1[0] + 3.0 * (z * f1[1])) + 4.0 * y * (f2[0] + z * f2[1])};
}

// Halley's step from z towards the density. It leaves of an error e some 10 e³ (500 e³ in the
// flat place far below freezing): when a step is as short as last_step, what it leaves is
// below a rounding.
constexpr double last_step = 2e-6;
[[gnu::always_inline]] inline double step(const Polynomial& c, double density_kgm3, double z) {
  const Bend here = bend(c, z);
  const double miss = here.density_kgm3 - density_kgm3;
  return miss * here.slope / (here.slope * here.slope - miss * here.half_curvature);
}

// Where the search for a mixture starts: z against temperature and against how far the density
// stands from water's towards ethanol's. Read between its points it is right to 0.003 above
// -10 °C; what it is off only costs another step.
class Starts {
 public:
  Starts() {
    for (std::size_t row = 0; row < row_count; ++row) {
      const DensityAt at(coldest_C + static_cast<double>(row) * row_K);
      const double water = at.water_kgm3();
      const double range = at.pure_ethanol_kgm3() - water;
      double p = 0.0;
      for (std::size_t column = 0; column < column_count; ++column) {
        const double share = static_cast<double>(column) / last_column;
        p = at.mass_fraction(water + range * share, p);
        z_[row * column_count + column] = 2.0 * p - 1.0;
      }
    }
  }

  [[nodiscard]] double z(double t_C, double share) const {
    const double y = held((t_C - coldest_C) * (1.0 / row_K), last_row);
    const double x = held(share * last_column, last_column);
    const std::size_t row = std::min(static_cast<std::size_t>(y), row_count - 2);
    const std::size_t column = std::min(static_cast<std::size_t>(x), column_count - 2);
    const double dy = y - static_cast<double>(row);
    const double dx = x - static_cast<double>(column);
    const double* const cold = &z_[row * column_count + column];
    const double* const warm = cold + column_count;
    const double left = cold[0] + dy * (warm[0] - cold[0]);
    const double right = cold[1] + dy * (warm[1] - cold[1]);
    return left + dx * (right - left);
  }

 private:
  // Whatever it is given, what it returns lies from 0 to last.
  static double held(double x, double last) { return std::min(std::max(0.0, x), last); }

  static constexpr double coldest_C = -20.0;
  static constexpr double row_K = 4.0;
  static constexpr std::size_t row_count = 16;
  static constexpr std::size_t column_count = 65;
  static constexpr double last_row = row_count - 1;
  static constexpr double last_column = column_count - 1;
  std::array<double, row_count * column_count> z_{};
};

const Starts& starts() {
  static const Starts made;
  return made;
}

}  // namespace

DensityAt::DensityAt(double t_C) : t_C_(t_C) {
  const double d = t_C - 20.0;
  fold<0, 6>(coefficient_, d);
  fold<2, 5>(coefficient_, d);
  fold<4, 4>(coefficient_, d);
  fold<6, 3>(coefficient_, d);
  fold<8, 3>(coefficient_, d);
  fold<10, 2>(coefficient_, d);
  Pair ends = end_rows[6];
  for (std::size_t i = 6; i-- > 0;) ends = ends * d + end_rows[i];
  water_kgm3_ = ends[0];
  pure_ethanol_kgm3_ = ends[1];
}

DensityAt::Value DensityAt::operator()(double p) const {
  const Bend here = bend(coefficient_, 2.0 * p - 1.0);
  return {here.density_kgm3, 2.0 * here.slope};
}

// From a good start the second step is the last nearly always, so two are made without asking,
// and a processor works on several readings at once.
double DensityAt::root(double density_kgm3, double start_z) const {
  const double z = start_z - step(coefficient_, density_kgm3, start_z);
  const double second = step(coefficient_, density_kgm3, z);
  if (std::abs(second) < last_step) return std::min(std::max(z - second, -1.0), 1.0);
  return bracketed_root(density_kgm3, start_z);
}

// The density falls with every gram of ethanol between -20 and 40 °C, so one bracket always
// holds; a step out of it is replaced by halving it.
double DensityAt::bracketed_root(double density_kgm3, double start_z) const {
  double low = -1.0;
  double high = 1.0;
  double z = start_z;
  for (int i = 0; i < 60; ++i) {
    const double back = step(coefficient_, density_kgm3, z);
    const double next = z - back;
    if (std::abs(back) < last_step) return std::min(std::max(next, -1.0), 1.0);
    (bend(coefficient_, z).density_kgm3 > density_kgm3 ? low : high) = z;
    z = next > low && next < high ? next : 0.5 * (low + high);
  }
  not_found(density_kgm3, 0.5 + 0.5 * z);
}

void DensityAt::put_back(double p, double density_kgm3) const {
  // An end that counts as met may be 1e-9 away; the rest is rounding.
  constexpr double rounding = 2e-9;
  if (!(std::abs((*this)(p).density_kgm3 - density_kgm3) <= rounding)) {
    not_found(density_kgm3, p);
  }
}

void DensityAt::not_found(double density_kgm3, double p) const {
  throw base::NotConverged(
      "mass fraction from density",
      fmt::format("density {:.6f} kg/m³ at {:.2f} °C, residual {:.3g} kg/m³ at p {:.9f}",
                  density_kgm3, t_C_, (*this)(p).density_kgm3 - density_kgm3, p));
}

Found DensityAt::mass_fraction(double density_kgm3) const {
  constexpr double rounding = 1e-9;
  if (!(density_kgm3 <= water_kgm3_ + rounding)) return {0.0, Fit::denser_than_water};
  if (!(density_kgm3 >= pure_ethanol_kgm3_ - rounding)) return {1.0, Fit::lighter_than_ethanol};
  const double share = (water_kgm3_ - density_kgm3) / (water_kgm3_ - pure_ethanol_kgm3_);
  const double z = starts().z(t_C_, share);
  return {0.5 + 0.5 * root(density_kgm3, z), Fit::mixture};
}

double DensityAt::mass_fraction(double density_kgm3, double guess) const {
  return 0.5 + 0.5 * root(density_kgm3, 2.0 * std::min(std::max(0.0, guess), 1.0) - 1.0);
}

}  // namespace lynearm::spirit
