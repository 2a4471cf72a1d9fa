#include "vapour/atmosphere.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"

namespace lynearm::vapour {
namespace {

using units::Length;
using units::Pressure;

struct Row {
  double altitude_m, pressure_Pa, water_boils_C;
};

// Pressure: U.S. Standard Atmosphere 1976, computed elsewhere, printed to 0.1 Pa. Boiling
// point: IAPWS-95 saturation at that pressure, computed elsewhere, printed to 0.001 °C.
constexpr Row rows[] = {
    {0, 101325.0, 99.974},   {250, 98357.7, 99.144},  {500, 95461.3, 98.313},
    {1000, 89876.3, 96.649}, {1500, 84559.7, 94.984}, {2000, 79501.4, 93.317},
    {2500, 74691.8, 91.648}, {3000, 70121.2, 89.977},
};

TEST(StandardPressure, IsTheStandardsAtEveryRow) {
  for (const Row& row : rows) {
    EXPECT_NEAR(standard_pressure(Length::metres(row.altitude_m)).pascals(), row.pressure_Pa,
                0.06)
        << row.altitude_m;
  }
}

TEST(WaterBoilingPoint, LiesThreeToFiveHundredthsAboveTheSteamTables) {
  // Perry's DIPPR 101 fit, not rounding: the difference is named so that nobody takes 100.02 °C
  // at one atmosphere for a thermometer's fault.
  for (const Row& row : rows) {
    const double above =
        water_boiling_point(Pressure::pascals(row.pressure_Pa)).celsius() - row.water_boils_C;
    EXPECT_GT(above, 0.03) << row.altitude_m;
    EXPECT_LT(above, 0.05) << row.altitude_m;
  }
}

TEST(WaterBoilingPoint, FallsAsOneClimbs) {
  for (double z = -400.0; z < 9000.0; z += 200.0) {
    EXPECT_GT(water_boiling_point(standard_pressure(Length::metres(z))),
              water_boiling_point(standard_pressure(Length::metres(z + 200.0))));
  }
}

TEST(PressureFromBoilingWater, UndoesTheBoilingPoint) {
  const auto p = Pressure::hectopascals(987.0);
  EXPECT_NEAR(pressure_from_boiling_water(water_boiling_point(p)) / p, 1.0, 1e-12);
  EXPECT_THROW((void)pressure_from_boiling_water(units::Temperature::celsius(50.0)),
               base::InputError);
}

TEST(StandardPressure, RefusesTheDeepAndTheVeryHigh) {
  EXPECT_THROW((void)standard_pressure(Length::metres(-401.0)), base::InputError);
  EXPECT_THROW((void)standard_pressure(Length::metres(9001.0)), base::InputError);
}

}  // namespace
}  // namespace lynearm::vapour
