#include "vapour/flash.hpp"

#include <gtest/gtest.h>

#include <iostream>

#include "base/error.hpp"

namespace lynearm::vapour {
namespace {

using units::VolumeStrength;

TEST(FlashTemperature, IsWithinFourDegreesOfTheCommonlyListedValues) {
  // A list found on several pages, labelled % by volume on some and % by weight on others, with
  // no original source; read by volume. Pure ethanol: 12 to 17 °C depending on the method. The
  // two ends are where it is worst: 5 %, where NRTL is used at 60 °C and x 0.016, and 96 %,
  // where the list has open-cup values.
  struct Row {
    double percent, t_C, tolerance_K;
  };
  constexpr Row rows[] = {{5, 62, 5},  {10, 49, 4}, {20, 36, 3}, {30, 29, 3}, {40, 26, 3},
                          {50, 24, 3}, {60, 22, 3}, {70, 21, 3}, {80, 20, 3}, {96, 17, 5}};
  for (const Row& row : rows) {
    const double ours = flash_temperature(VolumeStrength::percent(row.percent)).celsius();
    std::cout << row.percent << " %vol: " << ours << " against " << row.t_C << " °C\n";
    EXPECT_NEAR(ours, row.t_C, row.tolerance_K) << row.percent;
  }
}

TEST(FlashTemperature, FallsWithStrengthAndWithThinAir) {
  EXPECT_GT(flash_temperature(VolumeStrength::percent(40)),
            flash_temperature(VolumeStrength::percent(60)));
  EXPECT_GT(flash_temperature(VolumeStrength::percent(40)),
            flash_temperature(VolumeStrength::percent(40), units::Pressure::kilopascals(80)));
}

TEST(FlashTemperature, IsNotGivenForWash) {
  EXPECT_THROW((void)flash_temperature(VolumeStrength::percent(2.0)), base::InputError);
  EXPECT_THROW((void)flash_temperature(VolumeStrength::percent(101.0)), base::InputError);
}

}  // namespace
}  // namespace lynearm::vapour
