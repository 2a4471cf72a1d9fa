// The formula of OIML R 22 written out term by term as it is printed, in long double, and its
// inverses by halving: slow and plain, to hold the quick ways against.
#pragma once

#include <array>
#include <cstddef>

#include "spirit/oiml_r22.hpp"

namespace lynearm::spirit {

class ExactFormula {
 public:
  explicit ExactFormula(double t_C) {
    const long double d = static_cast<long double>(t_C) - 20.0L;
    for (std::size_t k = 0; k < 12; ++k) of_p_[k] = oiml_r22::A[k];
    long double power = 1.0L;
    for (const double b : oiml_r22::B) of_p_[0] += b * (power *= d);
    add(oiml_r22::C1, d);
    add(oiml_r22::C2, d * d);
    add(oiml_r22::C3, d * d * d);
    add(oiml_r22::C4, d * d * d * d);
    add(oiml_r22::C5, d * d * d * d * d);
  }

  [[nodiscard]] long double density_kgm3(long double p) const {
    long double sum = 0.0L;
    for (std::size_t k = 12; k-- > 0;) sum = sum * p + of_p_[k];
    return sum;
  }

  [[nodiscard]] long double slope(long double p) const {
    long double sum = 0.0L;
    for (std::size_t k = 12; k-- > 1;) sum = sum * p + static_cast<long double>(k) * of_p_[k];
    return sum;
  }

  [[nodiscard]] long double mass_fraction(long double kgm3) const {
    return halved([&](long double p) { return density_kgm3(p) > kgm3; });
  }

  /// Of a share by volume at this temperature.
  [[nodiscard]] long double mass_fraction_of_volume(long double share) const {
    const long double pure = density_kgm3(1.0L);
    return halved([&](long double p) { return p * density_kgm3(p) / pure < share; });
  }

 private:
  template <std::size_t N>
  void add(const std::array<double, N>& c, long double factor) {
    for (std::size_t k = 0; k < N; ++k) of_p_[k + 1] += c[k] * factor;
  }

  // Where `too_low` turns false, from 0 to 1.
  template <class TooLow>
  static long double halved(const TooLow& too_low) {
    long double low = 0.0L;
    long double high = 1.0L;
    for (int i = 0; i < 64; ++i) {
      const long double middle = 0.5L * (low + high);
      (too_low(middle) ? low : high) = middle;
    }
    return 0.5L * (low + high);
  }

  std::array<long double, 12> of_p_{};
};

}  // namespace lynearm::spirit
