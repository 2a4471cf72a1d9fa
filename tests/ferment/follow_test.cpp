#include "ferment/follow.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "base/error.hpp"

namespace lynearm::ferment {
namespace {

using units::Duration;
using units::SpecificGravity;
using units::Temperature;

Batch usual() {
  Batch batch;
  batch.wort = wort::wort(units::Volume::litres(100.0), units::Plato::degrees(16.0));
  batch.sugars = {units::Share::percent(90.0), hexose_per_disaccharide};
  batch.yeast = units::Mass::grams(50.0);
  batch.nitrogen = units::Mass::grams(16.0);
  batch.pitched_at = Temperature::celsius(24.0);
  batch.vessel.room = Temperature::celsius(20.0);
  batch.vessel.loss = units::HeatLoss::watts_per_kelvin(12.0);
  return batch;
}

Followed told(const std::vector<Reading>& readings, const Batch& batch = usual()) {
  return follow(batch, {}, yeast("distillers-dry"), {}, readings, 1, 300,
                numeric::one_after_another());
}

Reading at(double hours, double gravity) {
  Reading one;
  one.at = Duration::hours(hours);
  one.gravity = SpecificGravity::ratio(gravity);
  return one;
}

double expected(const Pace& run, double hours) {
  double gravity = run.course.front().gravity.ratio();
  for (std::size_t i = 1; i < run.course.size(); ++i) {
    const PacePoint &a = run.course[i - 1], &b = run.course[i];
    if (b.at.hours() < hours) {
      gravity = b.gravity.ratio();
      continue;
    }
    const double part = (hours - a.at.hours()) / (b.at - a.at).hours();
    return a.gravity.ratio() + part * (b.gravity.ratio() - a.gravity.ratio());
  }
  return gravity;
}

/// Readings of a ferment that goes so much faster than planned.
std::vector<Reading> readings_of(double vigour, const std::vector<double>& hours,
                                 const Batch& batch = usual()) {
  Kinetics kinetics;
  kinetics.vigour = vigour;
  const Pace run = pace(batch, kinetics);
  std::vector<Reading> readings;
  for (const double h : hours) readings.push_back(at(h, expected(run, h)));
  return readings;
}

TEST(Follow, WithoutReadingsItIsThePlansForecast) {
  const Pace plan = pace(usual());
  const Followed followed = told({});
  ASSERT_TRUE(followed.dry.median && followed.dry.low && followed.dry.high);
  EXPECT_DOUBLE_EQ(followed.dry.median->hours(), plan.dry_after->hours());
  EXPECT_LT(*followed.dry.low, *followed.dry.median);
  EXPECT_GT(*followed.dry.high, *followed.dry.median);
  for (const ExpectedGravity& one : followed.course) {
    if (one.at > *plan.dry_after) break;
    EXPECT_NEAR(one.gravity.median.ratio(), expected(plan, one.at.hours()), 1e-9);
    EXPECT_LE(one.gravity.low, one.gravity.median);
    EXPECT_LE(one.gravity.median, one.gravity.high);
  }
  EXPECT_NEAR(followed.stopped.fraction(), 0.05, 0.02);
  EXPECT_FALSE(followed.stuck);
  EXPECT_TRUE(followed.doubts.empty());
}

TEST(Follow, AFasterFermentIsSeenInItsReadings) {
  Kinetics kinetics;
  kinetics.vigour = 1.35;
  const double dry_h = pace(usual(), kinetics).dry_after->hours();
  const Followed followed = told(readings_of(1.35, {18, 30, 42, 54}));
  EXPECT_NEAR(followed.dry.median->hours(), dry_h, 8.0);
  EXPECT_LT((*followed.dry.high - *followed.dry.low).hours(),
            0.6 * (*told({}).dry.high - *told({}).dry.low).hours());
  EXPECT_LT(followed.pace.low, 1.35);
  EXPECT_GT(followed.pace.high, 1.2);
  EXPECT_EQ(followed.gravities, 4U);
}

TEST(Follow, AReadingThatIsWrongIsFlaggedAndNotBelieved) {
  std::vector<Reading> readings = readings_of(1.0, {18, 30, 42, 54, 66});
  const Followed right = told(readings);
  EXPECT_TRUE(right.doubts.empty());
  readings[2].gravity = SpecificGravity::ratio(readings[2].gravity->ratio() + 0.020);
  const Followed followed = told(readings);
  ASSERT_EQ(followed.doubts.size(), 1U);
  EXPECT_EQ(followed.doubts[0].reading, 2U);
  EXPECT_LT(followed.doubts[0].expected.high, *readings[2].gravity);
  EXPECT_NEAR(followed.dry.median->hours(), right.dry.median->hours(), 6.0);
}

// What went wrong: of all courses the one that never began lay least far from a slip upwards,
// so the ferment was said to come to stand where it was pitched.
TEST(Follow, WhereNoGravityIsBelievedItIsAsIfNoneHadBeenRead) {
  const Followed plan = told({});
  for (const double slip : {1.010, 1.085, 1.120}) {
    const Followed followed = told({at(8.0, slip)});
    ASSERT_EQ(followed.doubts.size(), 1U) << slip;
    EXPECT_EQ(followed.gravities, 1U);
    EXPECT_EQ(followed.believed(), 0U);
    EXPECT_EQ(followed.dry.median, plan.dry.median);
    EXPECT_EQ(followed.end.low, plan.end.low);
    EXPECT_EQ(followed.end.median, plan.end.median);
    EXPECT_EQ(followed.stopped, plan.stopped);
    EXPECT_FALSE(followed.stuck);
    EXPECT_LT(followed.doubts[0].expected.low, followed.doubts[0].expected.high);
    EXPECT_NEAR(followed.doubts[0].expected.median.ratio(), expected(pace(usual()), 8.0),
                0.002);
  }
}

TEST(Follow, TheWarmthThatWasReadCountsThoughNoGravityIsBelieved) {
  Reading warm;
  warm.at = Duration::hours(7.0);
  warm.temperature = Temperature::celsius(29.0);
  const Followed by_warmth = told({warm});
  const Followed both = told({warm, at(8.0, 1.120)});
  EXPECT_EQ(both.believed(), 0U);
  EXPECT_EQ(both.dry.median, by_warmth.dry.median);
}

TEST(Follow, TheOrderOfReadingsIsWithoutMeaning) {
  std::vector<Reading> readings = readings_of(0.8, {20, 35, 50});
  const Followed one = told(readings);
  std::reverse(readings.begin(), readings.end());
  EXPECT_NEAR(told(readings).dry.median->hours(), one.dry.median->hours(), 0.1);
}

TEST(Follow, AFermentThatStandsHighIsStuckAndTheCausesAreNamed) {
  Batch batch = usual();
  batch.nitrogen = units::Mass::grams(8.0);
  batch.vessel.room = Temperature::celsius(12.0);
  std::vector<Reading> readings = readings_of(1.0, {24, 48, 72}, batch);
  for (const double h : {96.0, 108.0, 122.0}) {
    readings.push_back(at(h, readings[2].gravity->ratio()));
    readings.back().temperature = Temperature::celsius(14.0);
  }
  const Followed followed = told(readings, batch);
  EXPECT_TRUE(followed.stuck);
  EXPECT_GT(followed.stopped.percent(), 50.0);
  ASSERT_GE(followed.causes.size(), 3U);
  EXPECT_THAT(followed.causes[0], testing::HasSubstr("14.0 °C"));
  EXPECT_THAT(followed.causes[1], testing::HasSubstr("assimilable nitrogen"));
}

TEST(Follow, ARefractometerCountsForLessThanAHydrometer) {
  std::vector<Reading> readings = readings_of(1.2, {20, 32, 44});
  const Followed by_hydrometer = told(readings);
  for (Reading& one : readings) one.by_refractometer = true;
  const Followed by_refractometer = told(readings);
  EXPECT_GT((*by_refractometer.dry.high - *by_refractometer.dry.low).hours(),
            (*by_hydrometer.dry.high - *by_hydrometer.dry.low).hours());
}

TEST(Follow, WhatCannotBeIsRefused) {
  EXPECT_THROW((void)told({at(-1.0, 1.05)}), base::InputError);
  Batch nothing = usual();
  nothing.yeast = units::Mass{};
  EXPECT_THROW((void)told({}, nothing), base::InputError);
}

TEST(Follow, AMisreadingFarOutSaysNothingOfWhetherItStopped) {
  std::vector<Reading> readings = readings_of(1.0, {24.0, 48.0});
  const Followed before = told(readings);
  // Above where it began, of a wash on its way down: nothing a ferment could do.
  for (const double misread : {1.102, 1.085}) {
    std::vector<Reading> with = readings;
    with.push_back(at(72.0, misread));
    const Followed after = told(with);
    ASSERT_EQ(after.doubts.size(), 1U);
    EXPECT_EQ(after.doubts[0].reading, 2U);
    EXPECT_NEAR(after.stopped.fraction(), before.stopped.fraction(), 0.02) << misread;
    EXPECT_FALSE(after.stuck);
    EXPECT_NEAR(after.end.median.ratio(), before.end.median.ratio(), 0.0005);
  }
}

}  // namespace
}  // namespace lynearm::ferment
