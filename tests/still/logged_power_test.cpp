// The fire of a log, and its readings at 20 °C.
#include "still/logged_power.hpp"

#include <gtest/gtest.h>

#include "still/fit_readings.hpp"

namespace lynearm::still {
namespace {

using units::Duration;
using units::Power;

Reading power_at(double minutes, double watts) {
  Reading r;
  r.at = Duration::minutes(minutes);
  r.power = Power::watts(watts);
  return r;
}

Reading event_at(double minutes, Event event) {
  Reading r;
  r.at = Duration::minutes(minutes);
  r.event = event;
  return r;
}

using Steps = std::vector<std::pair<double, double>>;
Steps steps(const LoggedPower& logged) {
  Steps all;
  for (const PowerStep& s : logged.steps) {
    all.emplace_back(std::get<Duration>(s.from).minutes(), s.power.watts());
  }
  return all;
}

TEST(LoggedPower, IsEmptyWhenNoneWasRead) {
  EXPECT_TRUE(logged_power({}, Power::watts(1500.0)).steps.empty());
}

TEST(LoggedPower, HoldsFromTheStartWhatWasReadFirst) {
  const LoggedPower logged = logged_power({{power_at(12.0, 1500.0)}}, Power::watts(2000.0));
  EXPECT_EQ(steps(logged), (Steps{{0.0, 1500.0}}));
}

TEST(LoggedPower, TakesFlickerAsOnePower) {
  const LoggedPower logged =
      logged_power({{power_at(0.0, 1500.0), power_at(10.0, 1520.0), power_at(20.0, 1480.0),
                     power_at(30.0, 1100.0), power_at(40.0, 1100.0)}},
                   Power::watts(2000.0));
  EXPECT_EQ(steps(logged), (Steps{{0.0, 1500.0}, {30.0, 1100.0}}));
}

TEST(LoggedPower, PassesOverAPowerThatStandsAlone) {
  const LoggedPower logged =
      logged_power({{power_at(0.0, 1500.0), power_at(10.0, 15000.0), power_at(20.0, 1500.0)}},
                   Power::watts(2000.0));
  EXPECT_EQ(steps(logged), (Steps{{0.0, 1500.0}}));
  ASSERT_EQ(logged.passed_over.size(), 1u);
  EXPECT_EQ(logged.passed_over[0].power, Power::watts(15000.0));
}

TEST(LoggedPower, BelievesAFireThatWasAllItsPowerToTheBoil) {
  // It was once taken as mistyped, since the two powers after it agree.
  const LoggedPower logged =
      logged_power({{power_at(0.0, 4000.0), power_at(40.0, 2200.0), power_at(92.0, 1980.0)}},
                   Power::watts(2000.0));
  EXPECT_EQ(steps(logged), (Steps{{0.0, 4000.0}, {40.0, 2200.0}, {92.0, 1980.0}}));
  EXPECT_TRUE(logged.passed_over.empty());
}

TEST(LoggedPower, BelievesAFireThatIsTurnedDownAtTheEnd) {
  const LoggedPower logged =
      logged_power({{power_at(0.0, 2400.0), power_at(10.0, 2400.0), power_at(60.0, 1000.0)}},
                   Power::watts(2000.0));
  EXPECT_EQ(steps(logged), (Steps{{0.0, 2400.0}, {60.0, 1000.0}}));
}

TEST(LoggedPower, ResumesAtThePowerBeforeTheStop) {
  const LoggedPower logged =
      logged_power({{power_at(0.0, 1500.0), event_at(100.0, Event::stopped),
                     event_at(900.0, Event::resumed)}},
                   Power::watts(2000.0));
  EXPECT_EQ(steps(logged), (Steps{{0.0, 1500.0}, {100.0, 0.0}, {900.0, 1500.0}}));
  EXPECT_FALSE(logged.heat_off);
}

TEST(LoggedPower, TakesTheKitsPowerWhereOnlyAStopIsLogged) {
  const LoggedPower logged =
      logged_power({{event_at(100.0, Event::stopped)}}, Power::watts(2000.0));
  EXPECT_EQ(steps(logged), (Steps{{0.0, 2000.0}, {100.0, 0.0}}));
  ASSERT_TRUE(logged.heat_off);
  EXPECT_EQ(logged.heat_off->minutes(), 100.0);
}

TEST(SeenReadings, BringStrengthAndVolumeTo20Degrees) {
  Reading r;
  r.at = Duration::minutes(60.0);
  r.spout = spirit::Reading{70.0, spirit::Scale::percent_vol};
  r.spout_temperature = units::Temperature::celsius(30.0);
  r.collected = units::Volume::litres(1.0);
  const SeenRun all = seen({{r}}, std::nullopt);
  ASSERT_EQ(all.readings.size(), 2u);
  // From memory: 70 % shown at 30 °C is near 66.5 % at 20 °C.
  EXPECT_NEAR(all.readings[0].figure, 66.5, 0.3);
  // Near 66 % spirit grows by about 0.09 % a kelvin (from memory).
  EXPECT_NEAR(all.readings[1].figure, 0.991, 0.001);
}

TEST(SeenReadings, LeaveOutTheHeadBeforeSpiritRuns) {
  Reading cold, running;
  cold.at = Duration::minutes(10.0);
  cold.head_temperature = units::Temperature::celsius(21.0);
  running.at = Duration::minutes(60.0);
  running.head_temperature = units::Temperature::celsius(85.0);
  running.collected = units::Volume::millilitres(200.0);
  const SeenRun all = seen({{cold, running}}, std::nullopt);
  ASSERT_EQ(all.readings.size(), 2u);
  EXPECT_EQ(all.readings[0].t_s, 3600.0);
  EXPECT_EQ(all.readings[1].t_s, 3600.0);
}

TEST(SeenReadings, EndWhenTheHeatIsOffForGood) {
  Reading running, after;
  running.at = Duration::minutes(60.0);
  running.pot_temperature = units::Temperature::celsius(90.0);
  after.at = Duration::minutes(200.0);
  after.pot_temperature = units::Temperature::celsius(60.0);
  EXPECT_EQ(seen({{running, after}}, Duration::minutes(120.0)).readings.size(), 1u);
}

TEST(SeenReadings, NameAStrengthThatNoSpiritShows) {
  Reading r;
  r.at = Duration::minutes(60.0);
  r.line = 17;
  r.spout = spirit::Reading{0.0, spirit::Scale::percent_vol};
  r.spout_temperature = units::Temperature::celsius(5.0);
  r.pot_temperature = units::Temperature::celsius(99.0);
  const SeenRun all = seen({{r}}, std::nullopt);
  EXPECT_EQ(all.readings.size() + all.unread.size(), 2u);
}

TEST(LoggedPower, ReadFirstAfterTheBoilWasTurnedDownTo) {
  // As when a run is followed: the boiler's whole power to the boil, then what was read.
  Record record;
  record.readings = {power_at(45.0, 1450.0)};
  EXPECT_EQ(steps(logged_power(record, Power::watts(1500.0), Power::watts(3000.0))),
            (Steps{{0.0, 3000.0}, {45.0, 1450.0}}));
  // Nearer to the boiler's whole power it burned from the start; at the start it was read then.
  record.readings = {power_at(45.0, 2900.0)};
  EXPECT_EQ(steps(logged_power(record, Power::watts(1500.0), Power::watts(3000.0))),
            (Steps{{0.0, 2900.0}}));
  record.readings = {power_at(0.0, 1450.0)};
  EXPECT_EQ(steps(logged_power(record, Power::watts(1500.0), Power::watts(3000.0))),
            (Steps{{0.0, 1450.0}}));
}

}  // namespace
}  // namespace lynearm::still
