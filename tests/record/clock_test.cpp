#include "record/clock.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace lynearm::record {
namespace {

using units::Duration;

Duration at(const char* text) {
  const auto time = clock_time(text);
  EXPECT_TRUE(time) << text;
  return time.value_or(Duration{});
}

TEST(ClockTime, IsReadWithAndWithoutSeconds) {
  EXPECT_EQ(at("00:00"), Duration{});
  EXPECT_EQ(at("9:05"), Duration::minutes(545.0));
  EXPECT_EQ(at("21:40"), Duration::minutes(1300.0));
  EXPECT_EQ(at("21:40:30"), Duration::seconds(78030.0));
  EXPECT_EQ(at("23:59:59"), Duration::seconds(86399.0));
}

TEST(ClockTime, WhatIsNoneIsRefused) {
  for (const char* text :
       {"", ":", "24:00", "12:60", "12:5", "12", "1240", "12:40:60", "12:40:", "12:40:5",
        "-1:00", "12:40 pm", " 12:40", "123:40", "12:400"}) {
    EXPECT_FALSE(clock_time(text)) << text;
  }
}

// Takes the times as they come, each but the last as a reading.
double hours(Clock clock, std::initializer_list<const char*> times) {
  Duration since;
  for (const char* text : times) {
    since = clock.since_heat_on(at(text));
    clock.pass(since, at(text), std::nullopt);
  }
  return since.hours();
}

TEST(Clock, CountsFromTheFirstTimeOrFromWhenTheHeatWasTurnedOn) {
  EXPECT_DOUBLE_EQ(hours(Clock(), {"21:00", "22:30"}), 1.5);
  EXPECT_DOUBLE_EQ(hours(Clock(at("20:30")), {"21:00", "22:30"}), 2.0);
  EXPECT_DOUBLE_EQ(hours(Clock(at("23:30")), {"00:30"}), 1.0);
}

TEST(Clock, RollsOverMidnight) {
  EXPECT_DOUBLE_EQ(hours(Clock(), {"22:00", "23:50", "00:10"}), 2.0 + 1.0 / 6.0);
  EXPECT_DOUBLE_EQ(hours(Clock(), {"22:00", "08:00", "19:00", "06:00", "17:00"}), 43.0);
}

TEST(Clock, ALateEntryFallsBehindEvenAcrossMidnight) {
  EXPECT_DOUBLE_EQ(hours(Clock(), {"22:00", "23:00", "22:30"}), 0.5);
  EXPECT_DOUBLE_EQ(hours(Clock(), {"22:00", "00:10", "23:50"}), 11.0 / 6.0);
  // And leaves the latest where it was.
  EXPECT_DOUBLE_EQ(hours(Clock(), {"22:00", "00:10", "23:50", "00:20"}), 7.0 / 3.0);
}

TEST(Clock, ATimeBeforeTheHeatIsBelowZero) {
  EXPECT_DOUBLE_EQ(hours(Clock(at("09:00")), {"08:50"}), -1.0 / 6.0);
}

TEST(Clock, GoesOnlyForwardOnceTheRunIsStopped) {
  Clock clock;
  clock.pass({}, at("14:00"), std::nullopt);
  const Duration stop = clock.since_heat_on(at("18:00"));
  EXPECT_DOUBLE_EQ(stop.hours(), 4.0);
  // Nine o'clock is nine hours back, or fifteen ahead: the morning after.
  EXPECT_LT(clock.since_heat_on(at("09:00")).hours(), 0.0);
  clock.pass(stop, at("18:00"), true);
  const Duration morning = clock.since_heat_on(at("09:00"));
  EXPECT_DOUBLE_EQ(morning.hours(), 19.0);
  clock.pass(morning, at("09:00"), false);
  EXPECT_DOUBLE_EQ(clock.since_heat_on(at("08:30")).hours(), 18.5);
}

RC_GTEST_PROP(ClockProperty, AnyTimesLessThanHalfADayApartComeBack, ()) {
  const auto gaps = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 12 * 3600));
  Clock clock;
  long total_s = *rc::gen::inRange(0, 86400);
  const long start_s = total_s;
  const auto of_day = [](long s) { return Duration::seconds(static_cast<double>(s % 86400)); };
  clock.pass({}, of_day(total_s), std::nullopt);
  for (const int gap : gaps) {
    total_s += gap;
    const Duration since = clock.since_heat_on(of_day(total_s));
    RC_ASSERT(since == Duration::seconds(static_cast<double>(total_s - start_s)));
    clock.pass(since, of_day(total_s), std::nullopt);
  }
}

}  // namespace
}  // namespace lynearm::record
