// A run as it is followed while entries come late, are corrected and struck: what is told is
// told of the readings that stand.
#include "station/followed.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <stdexcept>
#include <utility>

#include "recipe/read_pair.hpp"
#include "station/demonstration.hpp"

namespace lynearm::station {
namespace {

class AFollowedRun : public testing::Test {
 protected:
  AFollowedRun() {
    const journal::BatchState& batch = demo_batch("Tern 8");
    kit_text = batch.plan->kit;
    pair = recipe::read_pair({batch.plan->recipe, "recipe"}, {kit_text, "kit"});
    run = batch.runs.back();
    run.readings.resize(5);
    jars = std::move(run.jars);
    run.jars.clear();
  }
  wire::RunForecast told(Followed& by) const {
    return by.of(pair.recipe, pair.kit, kit_text, run);
  }
  wire::RunForecast told_afresh() const {
    Followed fresh = quick();
    return told(fresh);
  }
  static Followed quick() { return Followed(numeric::one_after_another(), 100); }

  recipe::Pair pair;
  std::string kit_text;
  journal::RunState run;
  std::map<int, journal::JarState> jars;  // of the whole run
};

double first_drops_min(const wire::RunForecast& told) {
  const still::NextDecision& first = told.forecast.decisions.front();
  EXPECT_EQ(first.decision, still::Decision::first_drops);
  return first.at.value().median.minutes();
}

void expect_same(const wire::RunForecast& a, const wire::RunForecast& b) {
  EXPECT_EQ(a.readings, b.readings);
  EXPECT_EQ(a.now.pot_temperature.median, b.now.pot_temperature.median);
  EXPECT_EQ(a.now.collected.high, b.now.collected.high);
  ASSERT_EQ(a.forecast.by_time.size(), b.forecast.by_time.size());
  EXPECT_EQ(a.forecast.by_time.back().spout.median, b.forecast.by_time.back().spout.median);
}

TEST_F(AFollowedRun, TakesWhatIsNewAndIsThenAsIfItHadTakenAllInOrder) {
  Followed by = quick();
  const std::vector<journal::RunPoint> all = run.readings;
  run.readings.resize(3);
  (void)told(by);
  run.readings = all;
  expect_same(told(by), told_afresh());
}

TEST_F(AFollowedRun, AReadingThatComesLateIsTakenAndIsNotTheLatest) {
  Followed by = quick();
  const std::vector<journal::RunPoint> all = run.readings;
  run.readings.erase(run.readings.begin() + 2);
  (void)told(by);
  run.readings = all;
  const wire::RunForecast late = told(by);
  ASSERT_EQ(late.readings.size(), all.size());
  EXPECT_EQ(late.readings.back(), all[2].told.entry);
  ASSERT_TRUE(late.latest);
  EXPECT_EQ(late.latest->at, all.back().reading.at);
  // Drawn in another order, so not to the last digit.
  EXPECT_NEAR(late.now.collected.median.millilitres(),
              told_afresh().now.collected.median.millilitres(), 60.0);
}

TEST_F(AFollowedRun, ACorrectedReadingBeginsItAnew) {
  Followed by = quick();
  const wire::RunForecast before = told(by);
  ASSERT_TRUE(run.readings[3].reading.pot_temperature);
  units::Temperature& pot = *run.readings[3].reading.pot_temperature;
  pot = pot + units::TemperatureChange::kelvins(0.4);
  const wire::RunForecast after = told(by);
  expect_same(after, told_afresh());
  EXPECT_NE(after.now.pot_temperature.median, before.now.pot_temperature.median);
}

TEST_F(AFollowedRun, AStruckReadingBeginsItAnew) {
  Followed by = quick();
  (void)told(by);
  run.readings.erase(run.readings.begin() + 1);
  expect_same(told(by), told_afresh());
}

TEST_F(AFollowedRun, AnotherChargeBeginsItAnew) {
  Followed by = quick();
  (void)told(by);
  run.charge = run.charge * 0.9;
  expect_same(told(by), told_afresh());
}

TEST_F(AFollowedRun, HeatsUpAtThePowerToldAtItsStart) {
  const auto gentle = units::Power::watts(1200.0);
  journal::RunPoint read = run.readings.front();
  run.readings.clear();
  run.power.reset();
  const double at_full_power = first_drops_min(told_afresh());
  run.power = gentle;
  const double as_begun = first_drops_min(told_afresh());
  EXPECT_GT(as_begun, 1.3 * at_full_power);
  // The same fire told as a reading.
  run.power.reset();
  read.reading = {};
  read.reading.at = units::Duration::minutes(0.01);
  read.reading.power = gentle;
  run.readings = {read};
  EXPECT_NEAR(as_begun, first_drops_min(told_afresh()), 0.02 * as_begun);
}

TEST_F(AFollowedRun, TellsThePowerItIsTakenToBeTurnedDownTo) {
  run.readings.clear();
  run.power.reset();
  const wire::RunForecast full = told_afresh();
  ASSERT_TRUE(full.turns_down_to);
  EXPECT_LT(*full.turns_down_to, pair.kit.still.boiler.power);
  run.power = *full.turns_down_to;
  EXPECT_FALSE(told_afresh().turns_down_to);
}

TEST_F(AFollowedRun, AFilledJarTellsWhatCameOver) {
  const std::size_t readings = run.readings.size();
  const wire::RunForecast without = told_afresh();
  run.jars = {{1, jars.at(1)}, {2, jars.at(2)}};
  const wire::RunForecast with = told_afresh();
  ASSERT_EQ(with.readings.size(), readings + 2);
  EXPECT_EQ(std::count(with.readings.begin(), with.readings.end(), jars.at(2).filled->entry),
            1);
  EXPECT_NE(with.now.collected.median, without.now.collected.median);
  // Its volume corrected, all from there on is another run.
  Followed by = quick();
  (void)told(by);
  run.jars.at(1).as_filled = *jars.at(1).as_filled * 0.9;
  expect_same(told(by), told_afresh());
}

TEST_F(AFollowedRun, JarsToldTogetherFromAListTellTheirSum) {
  run.jars = {{1, jars.at(1)}, {2, jars.at(2)}, {3, jars.at(3)}};
  run.jars.at(1).filled->at = run.jars.at(2).filled->at = run.jars.at(3).filled->at;
  const wire::RunForecast told = told_afresh();
  EXPECT_EQ(told.readings.size(), run.readings.size() + 1);
  EXPECT_EQ(std::count(told.readings.begin(), told.readings.end(), jars.at(3).filled->entry),
            1);
}

TEST_F(AFollowedRun, AJarWithoutItsVolumeTellsNothingAndNoneAfterIt) {
  run.jars = {{1, jars.at(1)}, {2, jars.at(2)}, {3, jars.at(3)}};
  run.jars.at(2).as_filled.reset();
  EXPECT_EQ(told_afresh().readings.size(), run.readings.size() + 1);
}

TEST_F(AFollowedRun, WhatTheFollowerRefusesIsToldAndKeepsNothingElseBack) {
  Followed by = quick();
  run.readings[1].reading.pot_temperature = units::Temperature::celsius(400.0);
  const wire::RunForecast told_of = told(by);
  ASSERT_EQ(told_of.refused.size(), 1U);
  EXPECT_EQ(told_of.refused[0].entry, run.readings[1].told.entry);
  EXPECT_NE(told_of.refused[0].why.find("400"), std::string::npos);
  EXPECT_EQ(told_of.readings.size(), run.readings.size() - 1);
}

TEST_F(AFollowedRun, ALoggerThatWritesEverySecondIsWeighedByTheMinute) {
  const still::Reading first = run.readings.front().reading;
  const auto logged = [&](std::size_t seconds) {
    run.readings.resize(5);
    for (std::size_t i = 0; i < seconds; ++i) {
      journal::RunPoint point = run.readings[4];
      point.told.entry = journal::Id(
          {0xff, static_cast<std::uint8_t>(i >> 8U), static_cast<std::uint8_t>(i & 0xffU)});
      point.reading = {};
      point.reading.at = first.at + units::Duration::seconds(static_cast<double>(i));
      point.reading.pot_temperature = first.pot_temperature;
      run.readings.push_back(point);
    }
  };
  logged(5);
  Followed by = quick();
  EXPECT_EQ(told(by).crowded, 0U);
  logged(1000);
  const wire::RunForecast all = told(by);
  EXPECT_EQ(all.readings.size(), run.readings.size());
  // Six of each of seventeen minutes.
  EXPECT_NEAR(static_cast<double>(all.crowded), 1000.0 - 6.0 * 17.0, 20.0);
  expect_same(all, told_afresh());
}

TEST_F(AFollowedRun, AnEndedRunIsToldAgainAndTakesWhatIsToldLate) {
  Followed by = quick();
  const std::vector<journal::RunPoint> all = run.readings;
  run.readings.pop_back();
  run.ended = journal::Told{};
  const wire::RunForecast before = told(by);
  expect_same(told(by), before);
  run.readings = all;
  expect_same(told(by), told_afresh());
  run.readings.pop_back();
  expect_same(told(by), before);
}

TEST_F(AFollowedRun, BrokenOffHalfWayItBeginsAnewTheNextTime) {
  Followed by = quick();
  EXPECT_FALSE(by.begun(run.told.entry));
  int left = 150;  // into the second generation of members
  const numeric::Executor breaks = [&](std::size_t count, const auto& task) {
    for (std::size_t i = 0; i < count; ++i) {
      if (--left == 0) throw std::runtime_error("the house closes");
      task(i);
    }
  };
  EXPECT_THROW((void)by.of(pair.recipe, pair.kit, kit_text, run, breaks), std::runtime_error);
  EXPECT_TRUE(by.begun(run.told.entry));
  expect_same(told(by), told_afresh());
}

}  // namespace
}  // namespace lynearm::station
