// Which reading of the air a run is followed under.
#include "station/air.hpp"

#include <gtest/gtest.h>

#include "station/demonstration.hpp"
#include "vapour/atmosphere.hpp"

namespace lynearm::station {
namespace {

class TheAirOfARun : public testing::Test {
 protected:
  TheAirOfARun() : run(demo_batch("Tern 8").runs.back()) { run.ended.reset(); }

  journal::AirState read(double hours_after_heat_on, double hPa) const {
    journal::AirState air;
    air.told.at = run.told.at;
    air.told.at.milliseconds += static_cast<std::int64_t>(hours_after_heat_on * 3.6e6);
    air.air.pressure = units::Pressure::hectopascals(hPa);
    return air;
  }

  journal::RunState run;
};

TEST_F(TheAirOfARun, IsTheLatestReadFromADayBeforeItToItsEnd) {
  EXPECT_FALSE(air_of_run({}, {}, run));
  EXPECT_FALSE(air_of_run({read(-30, 990)}, {}, run));
  EXPECT_NEAR(air_of_run({read(-2, 1004)}, {read(-5, 999)}, run)->hectopascals(), 1004, 1e-9);
  EXPECT_NEAR(air_of_run({read(-2, 1004)}, {read(1, 999)}, run)->hectopascals(), 999, 1e-9);
  run.ended = run.told;
  EXPECT_NEAR(air_of_run({read(-2, 1004)}, {read(1, 999)}, run)->hectopascals(), 1004, 1e-9);
}

TEST_F(TheAirOfARun, OfABarometerThatWaversDuringItStaysTheOneItBeganWith) {
  const std::vector<journal::AirState> logged = {read(-1, 1004), read(1, 1003), read(2, 1005)};
  EXPECT_NEAR(air_of_run(logged, {}, run)->hectopascals(), 1004, 1e-9);
  EXPECT_NEAR(air_of_run(logged, {read(3, 1000)}, run)->hectopascals(), 1000, 1e-9);
}

TEST_F(TheAirOfARun, IsThatOfBoilingWaterWhereNoBarometerWasRead) {
  journal::AirState kettle = read(0, 1000);
  kettle.air.pressure.reset();
  kettle.air.boiling_water = vapour::water_boiling_point(units::Pressure::hectopascals(985.0));
  EXPECT_NEAR(air_of_run({kettle}, {}, run)->hectopascals(), 985.0, 0.01);
  kettle.air.boiling_water = units::Temperature::celsius(12.0);  // of no boiling water
  EXPECT_FALSE(air_of_run({kettle}, {}, run));
}

}  // namespace
}  // namespace lynearm::station
