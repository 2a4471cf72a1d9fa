// A followed run as JSON: what is odd, out of reach or dangerous is said in words.
#include "wire/follow.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "wire/figure.hpp"

namespace lynearm::wire {
namespace {

using testing::HasSubstr;
using units::Volume;

still::Update update_with(double least_L, bool heated) {
  still::Update update;
  update.now.heated = heated;
  update.now.floor = {Volume::litres(6.0), true};
  update.now.left_in_pot = {Volume::litres(least_L), Volume::litres(least_L + 0.4),
                            Volume::litres(least_L + 0.8)};
  return update;
}

Json answered(const still::Update& update, const still::Forecast& forecast = {}) {
  return Json::parse(follow_json({}, update, forecast));
}

TEST(FollowJson, CautionsAtAnElementThatMayShow) {
  EXPECT_THAT(
      answered(update_with(5.8, true))["cautions"].dump(),
      HasSubstr("6.2 L (5.8 to 6.6) is left in the pot; the element needs 6.0 L over it "
                "and burns dry. Heat off first."));
  EXPECT_THAT(answered(update_with(6.5, true))["cautions"].dump(),
              HasSubstr("Watch the level; heat off before it shows."));
  EXPECT_EQ(answered(update_with(8.0, true))["cautions"].size(), 1U);
  const Json off = answered(update_with(5.8, false));
  ASSERT_EQ(off["cautions"].size(), 1U);
  EXPECT_THAT(off["cautions"][0].get<std::string>(), HasSubstr("Leave the heat off."));
}

TEST(FollowJson, CautionsAtSpiritAndAtCoolantThatAreTooHot) {
  still::Reading reading;
  reading.spout_temperature = units::Temperature::celsius(40.0);
  reading.coolant_out = units::Temperature::celsius(70.0);
  EXPECT_TRUE(follow_cautions(reading).empty());
  reading.coolant_out = units::Temperature::celsius(92.0);
  const Json json = Json::parse(follow_json(reading, update_with(8.0, true), {}));
  ASSERT_EQ(json["cautions"].size(), 2U);
  EXPECT_THAT(json["cautions"][0].get<std::string>(), HasSubstr("coolant above 70 °C"));
  reading.spout_temperature = units::Temperature::celsius(41.0);
  EXPECT_EQ(follow_cautions(reading).size(), 2U);
}

TEST(FollowJson, SaysWhenNothingRunsAndWhatContradictsTheLog) {
  still::Update update = update_with(9.0, true);
  update.now.nothing_runs = units::Share::percent(12.4);
  update.remarks.push_back(
      {0, still::FireOddity::stopped_again, units::Duration::minutes(101.0)});
  const Json json = answered(update);
  EXPECT_EQ(json["now"]["says"], "nothing runs at this power (12 % of the possible stills)");
  EXPECT_NEAR(json["now"]["nothing_runs_probability"].get<double>(), 0.124, 1e-12);
  ASSERT_EQ(json["remarks"].size(), 1U);
  EXPECT_THAT(json["remarks"][0].get<std::string>(), HasSubstr("off since 101 min"));
}

TEST(FollowJson, SaysWhyADecisionHasNoTime) {
  still::Forecast forecast;
  still::NextDecision next;
  next.reached = units::Share::percent(20.0);
  next.no_time = still::NoTime::fire_too_low;
  forecast.decisions.push_back(next);
  next.no_time = still::NoTime::out_of_reach;
  forecast.decisions.push_back(next);
  const Json json = answered(update_with(9.0, true), forecast);
  EXPECT_EQ(json["decisions"][0]["why_no_time"],
            "not reached at this power (in 80 % of the possible stills)");
  EXPECT_EQ(json["decisions"][1]["why_no_time"],
            "out of reach of this run (in 80 % of the possible stills)");
  EXPECT_TRUE(json["decisions"][0]["in_minutes"].is_null());
}

}  // namespace
}  // namespace lynearm::wire
