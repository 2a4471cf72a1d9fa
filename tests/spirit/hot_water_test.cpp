// Hot water against the recommended densities of Kell, J. Chem. Eng. Data 20 (1975) 97, from
// memory.
#include "spirit/hot_water.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "spirit/density.hpp"

namespace lynearm::spirit {
namespace {

using units::Temperature;

double kgm3(double t_C) {
  return hot_water_density(Temperature::celsius(t_C)).kilograms_per_cubic_metre();
}

TEST(HotWater, HasTheRecommendedDensities) {
  struct Row {
    double t_C, kgm3;
  };
  for (const Row& row : {Row{4.0, 999.97}, Row{20.0, 998.20}, Row{25.0, 997.05},
                         Row{50.0, 988.04}, Row{80.0, 971.80}, Row{100.0, 958.36}}) {
    EXPECT_NEAR(kgm3(row.t_C), row.kgm3, 0.01) << row.t_C << " °C";
  }
}

TEST(HotWater, LiesBesideTheFormulaOfSpirits) {
  for (double t_C = 0.0; t_C <= 40.0; t_C += 1.0) {
    const double oiml =
        density(units::MassFraction{}, Temperature::celsius(t_C)).kilograms_per_cubic_metre();
    EXPECT_NEAR(kgm3(t_C), oiml, 0.02) << t_C << " °C";
  }
}

TEST(HotWater, IsRefusedBeyondItsRange) {
  EXPECT_THROW((void)hot_water_density(Temperature::celsius(-1.0)), base::InputError);
  EXPECT_THROW((void)hot_water_density(Temperature::celsius(151.0)), base::InputError);
}

}  // namespace
}  // namespace lynearm::spirit
