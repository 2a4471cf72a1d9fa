#include "wire/todays_air.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace lynearm::wire {
namespace {

TEST(TodaysAirJson, namesItsUnitsAndItsCues) {
  const still::TodaysAir air = still::todays_air(
      still::air_at_altitude(units::Length::metres(120.0)), units::Temperature::celsius(99.2));
  const auto object =
      nlohmann::ordered_json::parse(todays_air_json(air, still::days_cues(air)))["todays_air"];
  EXPECT_NEAR(object["pressure_hPa"].get<double>(), air.pressure.hectopascals(), 1e-6);
  EXPECT_NEAR(object["thermometer_offset_K"].get<double>(), air.thermometer_offset.kelvins(),
              1e-9);
  EXPECT_LT(object["correlation"].get<double>(), 0.0);
  EXPECT_FALSE(object["account"].get<std::string>().empty());
  for (const auto& cue : object["cues"]) {
    EXPECT_TRUE(cue["of"] == "head" ? cue.contains("spout_percent_vol")
                                    : cue.contains("liquid_percent_vol"))
        << cue;
    EXPECT_NEAR(cue["shown_C"].get<double>() - cue["temperature_C"].get<double>(),
                air.thermometer_offset.kelvins(), 1e-7);
  }
}

TEST(TodaysAirJson, withoutCuesHasNoSuchKey) {
  const still::TodaysAir air =
      still::todays_air(still::air_at_pressure(units::Pressure::atmospheres(1.0)));
  const auto object = nlohmann::ordered_json::parse(todays_air_json(air, {}));
  EXPECT_FALSE(object["todays_air"].contains("cues"));
}

}  // namespace
}  // namespace lynearm::wire
