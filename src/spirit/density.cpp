#include "spirit/density.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/error.hpp"
#include "spirit/density_kernel.hpp"

namespace lynearm::spirit {
namespace {

// OIML R 22 (1973, edition 1975), coefficients of the general formula, as printed.
// clang-format off
constexpr std::array<double, 12> A = {
    998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388,
    306287.4042, -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426};
constexpr std::array<double, 6> B = {
    -2.0618513e-1, -5.2682542e-3, 3.6130013e-5, -3.8957702e-7, 7.1693540e-9, -9.9739231e-11};
constexpr std::array<double, 11> C1 = {
    1.693443461530087e-1, -1.046914743455169e1, 7.196353469546523e1, -7.047478054272792e2,
    3.924090430035045e3, -1.210164659068747e4, 2.248646550400788e4, -2.605562982188164e4,
    1.852373922069467e4, -7.420201433430137e3, 1.285617841998974e3};
constexpr std::array<double, 10> C2 = {
    -1.193013005057010e-2, 2.517399633803461e-1, -2.170575700536993, 1.353034988843029e1,
    -5.029988758547014e1, 1.096355666577570e2, -1.422753946421155e2, 1.080435942856230e2,
    -4.414153236817392e1, 7.442971530188783};
constexpr std::array<double, 9> C3 = {
    -6.802995733503803e-4, 1.876837790289664e-2, -2.002561813734156e-1, 1.022992966719220,
    -2.895696483903638, 4.810060584300675, -4.672147440794683, 2.458043105903461,
    -5.411227621436812e-1};
constexpr std::array<double, 4> C4 = {
    4.075376675622027e-6, -8.763058573471110e-6, 6.515031360099368e-6, -1.515784836987210e-6};
constexpr std::array<double, 2> C5 = {-2.788074354782409e-8, 1.345612883493354e-8};
// clang-format on

template <std::size_t N>
void add(std::array<double, 12>& to, const std::array<double, N>& c, double factor) {
  for (std::size_t k = 0; k < N; ++k) to[k + 1] += c[k] * factor;
}

units::Temperature checked(units::Temperature t) {
  if (!(t >= coldest && t <= warmest)) {
    throw base::InputError("temperature", fmt::format("{:.2f} °C", t.celsius()),
                           "-20 to 40 °C, the range of the density formula (OIML R 22)");
  }
  return t;
}

}  // namespace

DensityAt::DensityAt(double t_C) : coefficient_(A) {
  const double d = t_C - 20.0;
  double power = d;
  for (const double b : B) {
    coefficient_[0] += b * power;
    power *= d;
  }
  add(coefficient_, C1, d);
  add(coefficient_, C2, d * d);
  add(coefficient_, C3, d * d * d);
  add(coefficient_, C4, d * d * d * d);
  add(coefficient_, C5, d * d * d * d * d);
}

DensityAt::Value DensityAt::operator()(double p) const {
  double value = coefficient_[11];
  double slope = 0.0;
  for (std::size_t k = 11; k-- > 0;) {
    slope = slope * p + value;
    value = value * p + coefficient_[k];
  }
  return {value, slope};
}

double DensityAt::mass_fraction(double density_kgm3, double guess) const {
  // The density falls with every gram of ethanol between -20 and 40 °C, so one bracket always
  // holds; Newton converges in three or four steps and the bracket catches the rare overshoot.
  double low = 0.0;
  double high = 1.0;
  double p = std::fmin(std::fmax(guess, low), high);
  double miss = 0.0;
  for (int i = 0; i < 60; ++i) {
    const Value at = (*this)(p);
    miss = at.density_kgm3 - density_kgm3;
    if (std::abs(miss) < 1e-10) return p;
    (miss > 0.0 ? low : high) = p;
    double next = p - miss / at.slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (std::abs(next - p) < 1e-16) return next;
    p = next;
  }
  if (std::abs(miss) < 1e-9) return p;
  throw base::NotConverged(
      "mass fraction from density",
      fmt::format("density {:.6f} kg/m³, residual {:.3g} kg/m³ at p {:.9f}", density_kgm3, miss,
                  p));
}

units::Density density(units::MassFraction ethanol, units::Temperature t) {
  const double p = ethanol.fraction();
  if (!(p >= 0.0 && p <= 1.0)) {
    throw base::InputError("strength", fmt::format("{:.4f} % mass", 100.0 * p),
                           "0 to 100 % by mass");
  }
  return units::Density::kilograms_per_cubic_metre(
      DensityAt(checked(t).celsius())(p).density_kgm3);
}

units::MassFraction mass_fraction_at(units::Density density, units::Temperature t) {
  const DensityAt at(checked(t).celsius());
  const double wanted = density.kilograms_per_cubic_metre();
  const double heaviest = at(0.0).density_kgm3;
  const double lightest = at(1.0).density_kgm3;
  // A table's last digit may lie just outside; the mixture is then taken as pure.
  constexpr double rounding = 1e-9;
  if (!(wanted <= heaviest + rounding && wanted >= lightest - rounding)) {
    throw base::InputError(
        "density", fmt::format("{:.3f} kg/m³ at {:.2f} °C", wanted, t.celsius()),
        fmt::format("{:.3f} (pure ethanol) to {:.3f} (water) kg/m³ at that temperature",
                    lightest, heaviest));
  }
  const double guess = (heaviest - wanted) / (heaviest - lightest);
  return units::MassFraction::fraction(at.mass_fraction(wanted, guess));
}

}  // namespace lynearm::spirit
