#include "spirit/density.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>
#include <string>

#include "base/error.hpp"
#include "spirit/density_kernel.hpp"
#include "spirit/exact_formula.hpp"

namespace lynearm::spirit {
namespace {

using units::Density;
using units::MassFraction;
using units::Temperature;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double inf = std::numeric_limits<double>::infinity();

// Every tenth of a percent by mass, every half degree.
template <class Look>
void over_the_dense_grid(const Look& look) {
  for (int half_degrees = -40; half_degrees <= 80; ++half_degrees) {
    const double t_C = half_degrees / 2.0;
    const DensityAt at(t_C);
    const ExactFormula exact(t_C);
    for (int i = 0; i <= 1000; ++i) look(i / 1000.0, t_C, at, exact);
  }
}

std::string scientific(long double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1Le", value);
  return text;
}

TEST(Density, is_the_printed_formula_in_exact_arithmetic) {
  long double worst = 0.0L;
  over_the_dense_grid([&](double p, double, const DensityAt& at, const ExactFormula& exact) {
    worst = std::max(worst, std::abs(at(p).density_kgm3 - exact.density_kgm3(p)));
  });
  EXPECT_LT(worst, 5e-13L);
  RecordProperty("worst_kgm3", scientific(worst));
}

TEST(Density, ends_at_water_and_at_pure_ethanol) {
  for (double t_C = -20.0; t_C <= 40.0; t_C += 0.5) {
    const DensityAt at(t_C);
    EXPECT_NEAR(at.water_kgm3(), at(0.0).density_kgm3, 1e-12);
    EXPECT_NEAR(at.pure_ethanol_kgm3(), at(1.0).density_kgm3, 1e-12);
  }
}

TEST(Density, falls_with_every_gram_of_ethanol_at_every_temperature) {
  double flattest = -inf;
  over_the_dense_grid([&](double p, double t_C, const DensityAt& at, const ExactFormula&) {
    EXPECT_LT(at(p).slope, -6.0) << "t " << t_C << " p " << p;
    flattest = std::max(flattest, at(p).slope);
  });
  RecordProperty("flattest_kgm3", std::to_string(flattest));
}

TEST(Density, slope_is_the_derivative_of_the_formula) {
  long double worst = 0.0L;
  over_the_dense_grid([&](double p, double, const DensityAt& at, const ExactFormula& exact) {
    worst = std::max(worst, std::abs(at(p).slope - exact.slope(p)));
  });
  EXPECT_LT(worst, 1e-11L);
  RecordProperty("worst_kgm3", scientific(worst));
  // And without any derivative at all: differences, over which the fourth derivative (below
  // 1e7 kg/m³) makes 2e-6, and a rounding 2e-8.
  for (const double t_C : {-20.0, 0.0, 20.0, 40.0}) {
    const DensityAt at(t_C);
    constexpr double h = 1e-5;
    for (double p = 0.05; p < 1.0; p += 0.05) {
      EXPECT_NEAR(at(p).slope, (at(p + h).density_kgm3 - at(p - h).density_kgm3) / (2.0 * h),
                  1e-5)
          << "t " << t_C << " p " << p;
    }
  }
}

TEST(Density, inverse_returns_the_mixture_over_a_dense_grid) {
  double worst = 0.0;
  over_the_dense_grid([&](double p, double t_C, const DensityAt&, const ExactFormula&) {
    const Temperature t = Temperature::celsius(t_C);
    const MassFraction back = mass_fraction_at(density(MassFraction::fraction(p), t), t);
    worst = std::max(worst, std::abs(back.fraction() - p));
  });
  EXPECT_LT(worst, 1e-13);
  RecordProperty("worst_mass_fraction", scientific(worst));
}

TEST(Density, inverse_is_the_root_of_the_formula_in_exact_arithmetic) {
  long double worst = 0.0L;
  long double worst_from_minus_10_C = 0.0L;
  over_the_dense_grid(
      [&](double p, double t_C, const DensityAt& at, const ExactFormula& exact) {
        // A density of the caller's own, not one that this formula rounded.
        const double kgm3 =
            at.water_kgm3() + (at.pure_ethanol_kgm3() - at.water_kgm3()) * (0.0005 + 0.999 * p);
        const Found found = at.mass_fraction(kgm3);
        ASSERT_EQ(found.fit, Fit::mixture);
        const long double off = std::abs(found.mass_fraction - exact.mass_fraction(kgm3));
        worst = std::max(worst, off);
        if (t_C >= -10.0) worst_from_minus_10_C = std::max(worst_from_minus_10_C, off);
      });
  EXPECT_LT(worst, 5e-14L);
  EXPECT_LT(worst_from_minus_10_C, 5e-15L);
  RecordProperty("worst_mass_fraction", scientific(worst));
  RecordProperty("worst_from_minus_10_C", scientific(worst_from_minus_10_C));
}

TEST(Density, inverse_finds_the_same_from_any_start) {
  for (const double t_C : {-20.0, -19.0, -12.5, 0.0, 20.0, 40.0}) {
    const DensityAt at(t_C);
    for (int i = 0; i <= 1000; ++i) {
      const double kgm3 = at(i / 1000.0).density_kgm3;
      const double found = at.mass_fraction(kgm3).mass_fraction;
      for (const double start : {0.0, 0.15, 0.19, 0.25, 0.5, 1.0, -3.0, 7.0, nan}) {
        EXPECT_NEAR(at.mass_fraction(kgm3, start), found, 1e-13)
            << t_C << " " << i << " " << start;
      }
    }
  }
}

TEST(Density, of_the_ends_means_pure) {
  for (double t_C = -20.0; t_C <= 40.0; t_C += 0.5) {
    const DensityAt at(t_C);
    EXPECT_NEAR(at.mass_fraction(at.water_kgm3() + 0.9e-9).mass_fraction, 0.0, 1e-14);
    EXPECT_NEAR(at.mass_fraction(at.pure_ethanol_kgm3() - 0.9e-9).mass_fraction, 1.0, 1e-14);
    EXPECT_EQ(at.mass_fraction(at.water_kgm3() + 1.1e-9).fit, Fit::denser_than_water);
    EXPECT_EQ(at.mass_fraction(at.pure_ethanol_kgm3() - 1.1e-9).fit, Fit::lighter_than_ethanol);
  }
}

TEST(Density, puts_back_what_was_found) {
  const DensityAt at(20.0);
  EXPECT_NO_THROW(at.put_back(0.4, at(0.4).density_kgm3));
  EXPECT_THROW(at.put_back(0.4, at(0.4).density_kgm3 + 1e-8), base::NotConverged);
  EXPECT_THROW(at.put_back(0.4, nan), base::NotConverged);
  EXPECT_THROW(at.put_back(nan, 950.0), base::NotConverged);
}

TEST(Density, refuses_what_the_formula_does_not_cover) {
  const auto refused = [](double p, double t_C) {
    EXPECT_THROW(
        static_cast<void>(density(MassFraction::fraction(p), Temperature::celsius(t_C))),
        base::InputError)
        << p << " at " << t_C;
  };
  for (const double t_C : {40.01, -20.01, nan, inf, -inf}) refused(0.5, t_C);
  for (const double p : {1.001, -0.001, nan, inf, -inf}) refused(p, 20.0);
  for (const double kgm3 : {1005.0, 998.3, 789.2, 780.0, 0.0, -900.0, nan, inf, -inf}) {
    EXPECT_THROW(static_cast<void>(
                     mass_fraction_at(Density::kilograms_per_cubic_metre(kgm3), reference_20C)),
                 base::InputError)
        << kgm3;
  }
  EXPECT_THROW(static_cast<void>(mass_fraction_at(Density::kilograms_per_cubic_metre(900.0),
                                                  Temperature::celsius(nan))),
               base::InputError);
}

TEST(Density, says_what_a_mixture_may_weigh) {
  try {
    static_cast<void>(
        mass_fraction_at(Density::kilograms_per_cubic_metre(1005.0), reference_20C));
    FAIL() << "no mixture is so heavy";
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).value, "1005.000 kg/m³ at 20.00 °C");
    EXPECT_EQ(error.faults().at(0).accepted,
              "789.239 (pure ethanol) to 998.201 (water) kg/m³ at that temperature");
  }
}

TEST(Density, takes_the_ends_of_its_range) {
  EXPECT_NO_THROW(static_cast<void>(density(MassFraction::fraction(0.0), coldest)));
  EXPECT_NO_THROW(static_cast<void>(density(MassFraction::fraction(1.0), warmest)));
}

}  // namespace
}  // namespace lynearm::spirit
