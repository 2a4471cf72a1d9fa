#include "spirit/density.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "spirit/density_kernel.hpp"

namespace lynearm::spirit {
namespace {

using units::MassFraction;
using units::Temperature;

TEST(Density, falls_with_every_gram_of_ethanol_at_every_temperature) {
  for (int t = -20; t <= 40; t += 2) {
    const DensityAt at(t);
    for (int i = 0; i <= 1000; ++i) {
      EXPECT_LT(at(i / 1000.0).slope, 0.0) << "t " << t << " p " << i / 1000.0;
    }
  }
}

TEST(Density, inverse_returns_the_mixture_over_a_dense_grid) {
  for (int t = -20; t <= 40; ++t) {
    for (int i = 0; i <= 1000; ++i) {
      const MassFraction p = MassFraction::fraction(i / 1000.0);
      const Temperature temperature = Temperature::celsius(t);
      EXPECT_NEAR(mass_fraction_at(density(p, temperature), temperature).fraction(),
                  p.fraction(), 1e-10)
          << "t " << t;
    }
  }
}

TEST(Density, slope_is_the_derivative_of_the_formula) {
  for (const double t : {-20.0, 0.0, 20.0, 40.0}) {
    const DensityAt at(t);
    for (const double p : {0.05, 0.3, 0.5, 0.7, 0.95}) {
      const double h = 1e-5;
      EXPECT_NEAR(at(p).slope, (at(p + h).density_kgm3 - at(p - h).density_kgm3) / (2.0 * h),
                  1e-4);
    }
  }
}

TEST(Density, refuses_what_the_formula_does_not_cover) {
  const MassFraction half = MassFraction::fraction(0.5);
  EXPECT_THROW(static_cast<void>(density(half, Temperature::celsius(40.01))), base::InputError);
  EXPECT_THROW(static_cast<void>(density(half, Temperature::celsius(-20.01))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(density(MassFraction::fraction(1.001), reference_20C)),
               base::InputError);
  EXPECT_THROW(static_cast<void>(density(MassFraction::fraction(-0.001), reference_20C)),
               base::InputError);
  EXPECT_THROW(static_cast<void>(mass_fraction_at(
                   units::Density::kilograms_per_cubic_metre(1005.0), reference_20C)),
               base::InputError);
  EXPECT_THROW(static_cast<void>(mass_fraction_at(
                   units::Density::kilograms_per_cubic_metre(780.0), reference_20C)),
               base::InputError);
}

TEST(Density, takes_the_ends_of_its_range) {
  EXPECT_NO_THROW(static_cast<void>(density(MassFraction::fraction(0.0), coldest)));
  EXPECT_NO_THROW(static_cast<void>(density(MassFraction::fraction(1.0), warmest)));
}

}  // namespace
}  // namespace lynearm::spirit
