// A followed run whose fire is too low, goes out, or is logged oddly; and a pot that runs low.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "still/followed.hpp"

namespace lynearm::still {
namespace {

using testing::HasSubstr;
using units::Duration;
using units::Power;
using units::Volume;
using units::VolumeStrength;

const numeric::Executor alone = numeric::one_after_another();

// A fire too low for any still was once refused, and just above that the few that ran on were
// all that was left of the possible stills.
TEST(LowFire, LeavesEveryPossibleStillStandingAndFollowingGoesOn) {
  for (const double watts : {50.0, 200.0, 350.0, 500.0}) {
    Follower followed = followed_to(100.0);
    const double collected_mL = followed.now().collected.median.millilitres();
    const Update low = followed.take(power_at(101.0, watts), alone);
    EXPECT_GT(low.effective_members, 40.0) << watts;
    Reading later;
    later.at = Duration::minutes(131.0);
    later.note = "nothing runs";
    const Update after = followed.take(later, alone);
    EXPECT_GT(after.effective_members, 40.0) << watts;
    if (watts <= 350.0) {
      EXPECT_GT(after.now.nothing_runs.percent(), 50.0) << watts;
      EXPECT_FALSE(after.now.spout.has_value()) << watts;
      EXPECT_THAT(fire_words(after.now), HasSubstr("nothing runs at this power ("));
      EXPECT_LT(after.now.collected.median.millilitres(), collected_mL + 120.0) << watts;
      const Forecast standing = forecast_of(followed);
      const NextDecision* hearts = decision_of(standing, Decision::hearts_end);
      ASSERT_TRUE(hearts->no_time.has_value()) << watts;
      EXPECT_EQ(*hearts->no_time, NoTime::fire_too_low) << watts;
      EXPECT_THAT(why_no_time(*hearts), HasSubstr("not reached at this power"));
    }
    const Update on = followed.take(power_at(132.0, 1500.0), alone);
    EXPECT_GT(on.effective_members, 40.0) << watts;
    EXPECT_LT(on.now.nothing_runs.percent(), 1.0) << watts;
    const Forecast forecast = forecast_of(followed);
    const NextDecision* hearts = decision_of(forecast, Decision::hearts_end);
    ASSERT_TRUE(hearts->in.has_value()) << watts;
    EXPECT_GT(hearts->in->median, Duration::minutes(40.0)) << watts;
    EXPECT_LT(hearts->in->median, Duration::minutes(160.0)) << watts;
  }
}

TEST(LowFire, CoolsThePotOrKeepsItWarm) {
  Follower followed = followed_to(100.0);
  followed.take(power_at(101.0, 100.0), alone);
  Reading later;
  later.at = Duration::hours(8.0);
  const double C = followed.take(later, alone).now.pot_temperature.median.celsius();
  // 100 W hold a pot that loses 3 W/K some 30 K over its room.
  EXPECT_GT(C, 45.0);
  EXPECT_LT(C, 75.0);
}

TEST(LowFire, StandsForDaysAsTheLogGoesOn) {
  Follower followed = followed_to(100.0);
  followed.take(power_at(101.0, 100.0), alone);
  Reading later;
  later.at = Duration::hours(40.0);
  const Update update = followed.take(later, alone);
  // About 31 K over the room, and nothing can run.
  EXPECT_NEAR(update.now.pot_temperature.median.celsius(), 51.0, 6.0);
  EXPECT_GT(update.now.nothing_runs.percent(), 99.0);
  EXPECT_EQ(fire_words(update.now),
            "nothing runs at this power (100 % of the possible stills)");
}

TEST(LowFire, FromHeatOnNeverComesToTheBoil) {
  Follower followed = follower();
  followed.take(power_at(0.0, 200.0), alone);
  Reading later;
  later.at = Duration::hours(5.0);
  const Update update = followed.take(later, alone);
  EXPECT_GT(update.now.nothing_runs.percent(), 99.0);
  EXPECT_LT(update.now.pot_temperature.high.celsius(), 84.0);
  const Forecast forecast = forecast_of(followed);
  EXPECT_EQ(forecast.by_time.size(), 21U);
  for (const ExpectedAt& at : forecast.by_time) EXPECT_FALSE(at.running);
  EXPECT_EQ(decision_of(forecast, Decision::heads_end)->no_time, NoTime::fire_too_low);
}

// That spirit goes on coming tells which stills they are.
TEST(LowFire, ASpoutThatRunsOnRulesTheStandingStillsOut) {
  Follower followed = followed_to(100.0);
  followed.take(power_at(101.0, 440.0), alone);
  Reading later;
  later.at = Duration::minutes(140.0);
  later.note = "drips still";
  const double before = followed.take(later, alone).now.nothing_runs.percent();
  const double seen_percent =
      followed.now().spout ? followed.now().spout->median.percent() : 78.0;
  Reading drips;
  drips.at = Duration::minutes(160.0);
  drips.spout = spirit::Reading{seen_percent, spirit::Scale::percent_vol};
  drips.spout_temperature = units::Temperature::celsius(20.0);
  const double after = followed.take(drips, alone).now.nothing_runs.percent();
  EXPECT_GT(before, 20.0);
  EXPECT_LT(after, 0.5 * before);
}

TEST(FireLog, ASecondStopChangesNothingAndIsRemarked) {
  Follower followed = followed_to(100.0);
  followed.take(event_at(101.0, Event::stopped), alone);
  const Update again = followed.take(event_at(110.0, Event::stopped), alone);
  ASSERT_EQ(again.remarks.size(), 1U);
  EXPECT_EQ(again.remarks[0].oddity, FireOddity::stopped_again);
  EXPECT_THAT(sentence(again.remarks[0]), HasSubstr("off since 101 min"));
  EXPECT_FALSE(again.now.heated);
  // It once made the power to go on with 0 W, and the run was refused.
  const Update on = followed.take(event_at(120.0, Event::resumed), alone);
  EXPECT_TRUE(on.remarks.empty());
  EXPECT_TRUE(on.now.heated);
  const Forecast forecast = forecast_of(followed);
  EXPECT_TRUE(decision_of(forecast, Decision::hearts_end)->in.has_value());
}

TEST(FireLog, AResumptionWithoutAStopChangesNothingAndIsRemarked) {
  Follower followed = followed_to(100.0);
  const Forecast before = forecast_of(followed);
  const Update update = followed.take(event_at(100.0, Event::resumed), alone);
  ASSERT_EQ(update.remarks.size(), 1U);
  EXPECT_EQ(update.remarks[0].oddity, FireOddity::resumed_while_heated);
  EXPECT_THAT(sentence(update.remarks[0]), HasSubstr("was not off"));
  EXPECT_EQ(decision_of(forecast_of(followed), Decision::hearts_end)->at->median,
            decision_of(before, Decision::hearts_end)->at->median);
  // The stop that belongs to it may come late: then nothing is odd any more.
  EXPECT_TRUE(followed.take(event_at(95.0, Event::stopped), alone).remarks.empty());
}

TEST(FireLog, APowerWhileStoppedIsKeptAndRemarked) {
  Follower followed = followed_to(100.0);
  followed.take(event_at(101.0, Event::stopped), alone);
  const Update update = followed.take(power_at(110.0, 1200.0), alone);
  ASSERT_EQ(update.remarks.size(), 1U);
  EXPECT_EQ(update.remarks[0].oddity, FireOddity::power_while_stopped);
  EXPECT_FALSE(update.now.heated);
}

TEST(FireLog, InstrumentsReadOnTheRowThatStopsAreBelieved) {
  Follower followed = followed_to(100.0);
  const std::vector<Reading> exact = exact_readings(Duration::minutes(105.0), 101.0);
  Reading stopped = exact.front();
  stopped.event = Event::stopped;
  EXPECT_TRUE(followed.take(stopped, alone).doubts.empty());
  // The parrot is still full a minute later.
  Reading parrot;
  parrot.at = Duration::minutes(102.0);
  parrot.spout = stopped.spout;
  parrot.spout_temperature = stopped.spout_temperature;
  EXPECT_TRUE(followed.take(parrot, alone).doubts.empty());
  // An hour later it is not, or says nothing of what runs.
  parrot.at = Duration::minutes(162.0);
  const Update late = followed.take(parrot, alone);
  ASSERT_EQ(late.doubts.size(), 1U);
  EXPECT_TRUE(late.doubts[0].nothing_runs);
  EXPECT_THAT(sentence(late.doubts[0]), HasSubstr("nothing is expected to run"));
}

TEST(FireLog, WhatWasPassedKeepsItsTimeWhileTheRunStands) {
  Follower followed = followed_to(100.0);
  followed.take(event_at(101.0, Event::stopped), alone);
  const Forecast forecast = forecast_of(followed);
  const NextDecision* heads = decision_of(forecast, Decision::heads_end);
  EXPECT_TRUE(heads->passed);
  ASSERT_TRUE(heads->at.has_value());
  EXPECT_LT(heads->at->high, Duration::minutes(101.0));
  const NextDecision* hearts = decision_of(forecast, Decision::hearts_end);
  EXPECT_EQ(hearts->no_time, NoTime::heat_off);
  EXPECT_EQ(why_no_time(*hearts), "no time while the heat is off");
}

TEST(Decisions, OutOfReachAreSaidSo) {
  CutRules rules = usual_rules();
  rules.stop = Volume::litres(25.0);  // of a charge of 20 L
  const Follower fresh = follower_of(prior_of_kit(), rules);
  const Forecast forecast = forecast_of(fresh);
  const NextDecision* stop = decision_of(forecast, Decision::stop);
  EXPECT_EQ(stop->no_time, NoTime::out_of_reach);
  EXPECT_EQ(why_no_time(*stop), "out of reach of this run (in 100 % of the possible stills)");
  // A volume that lies beyond 8 %vol at the spout was once out of reach as well.
  rules.stop = Volume::litres(10.5);
  const Follower on = follower_of(prior_of_kit(), rules);
  EXPECT_TRUE(decision_of(forecast_of(on), Decision::stop)->in.has_value());
}

TEST(CutRules, OfOneKindThatContradictEachOtherAreRefusedTogether) {
  CutRules rules;
  rules.heads_end = Volume::litres(5.0);
  rules.hearts_end = Volume::litres(3.0);
  rules.stop = Volume::litres(2.0);
  try {
    static_cast<void>(follower_of(prior_of_kit(), rules));
    FAIL() << "accepted";
  } catch (const base::InputError& error) {
    ASSERT_EQ(error.faults().size(), 2U);
    EXPECT_EQ(error.faults()[0].field, "rules.hearts_end");
    EXPECT_EQ(error.faults()[0].value, "3.000 L");
    EXPECT_EQ(error.faults()[0].accepted,
              "a border that comes after the end of the heads, 5.000 L");
    EXPECT_EQ(error.faults()[1].field, "rules.stop");
  }
  rules = {};
  rules.hearts_end = VolumeStrength::percent(60.0);
  rules.stop = VolumeStrength::percent(62.0);
  EXPECT_EQ(faults_of(rules).size(), 1U);
  rules.stop = VolumeStrength::percent(60.0);  // at once is no contradiction
  EXPECT_TRUE(faults_of(rules).empty());
  rules.hearts_end = units::Temperature::celsius(92.0);
  rules.stop = units::Temperature::celsius(90.0);
  EXPECT_EQ(faults_of(rules).size(), 1U);
}

TEST(CutRules, OfTwoKindsAreRefusedWhereNoPossibleStillComesToThemInOrder) {
  CutRules rules;
  rules.heads_end = Volume::litres(6.0);
  rules.hearts_end = VolumeStrength::percent(74.0);
  try {
    static_cast<void>(follower_of(prior_of_kit(), rules));
    FAIL() << "accepted";
  } catch (const base::InputError& error) {
    ASSERT_EQ(error.faults().size(), 1U);
    EXPECT_EQ(error.faults()[0].field, "rules.hearts_end");
  }
  rules.heads_end = Volume::millilitres(300.0);
  EXPECT_NO_THROW(follower_of(prior_of_kit(), rules));
}

// What is left in the pot, against the run's own balance.
TEST(PotLow, SaysWhatIsLeftAndWarnsBeforeAnElementShows) {
  StillPrior prior = prior_of_kit();
  prior.element_covered_above = Volume::litres(13.0);
  Follower followed = follower_of(prior, usual_rules());
  EXPECT_EQ(pot_caution(followed.now()), "");
  const Forecast fresh = forecast_of(followed);
  const NextDecision* low = decision_of(fresh, Decision::pot_low);
  ASSERT_NE(low, nullptr);
  ASSERT_TRUE(low->in.has_value());
  EXPECT_GT(low->in->median, Duration::minutes(120.0));
  Stop stop;
  stop.spout_strength = VolumeStrength::percent(10.0);
  const auto run = distil(prior.charge, prior.setting, at_one_atmosphere(), stop);
  std::string nearly, last;
  for (const Reading& reading : exact_readings(Duration::minutes(240.0))) {
    const StillNow now = followed.take(reading, alone).now;
    last = pot_caution(now);
    if (nearly.empty()) nearly = last;
    const auto point = point_at_time(run, reading.at);
    if (!point) continue;
    const Volume left =
        hot_volume(run.charge.spirit - point->distillate - point->held, point->pot_temperature);
    EXPECT_GT(left, now.left_in_pot.low * 0.99);
    EXPECT_LT(left, now.left_in_pot.high * 1.01);
    EXPECT_NEAR(left.litres(), now.left_in_pot.median.litres(), 0.6);
  }
  EXPECT_THAT(nearly, HasSubstr("the element needs 13.0 L over it. Watch the level"));
  EXPECT_THAT(last,
              HasSubstr("the element needs 13.0 L over it and burns dry. Heat off first"));
}

TEST(PotLow, OfAPotHeatedFromOutsideIsNearlyDry) {
  StillNow now;
  now.floor = pot_floor(prior_of_kit());
  EXPECT_NEAR(now.floor.least.litres(), 1.0, 1e-9);
  EXPECT_FALSE(now.floor.element);
  const auto litres = [](double v) { return Volume::litres(v); };
  now.left_in_pot = {litres(1.2), litres(1.4), litres(1.6)};
  EXPECT_EQ(pot_caution(now), "");
  now.left_in_pot = {litres(0.8), litres(1.1), litres(1.5)};
  EXPECT_EQ(pot_caution(now),
            "1.1 L (0.8 to 1.5) is left in the pot: nearly dry. Heat off first.");
  EXPECT_EQ(pot_danger(now).value_or(PotDanger{}).brief, "Pot nearly dry: heat off first");
}

TEST(Learnt, IsToldToTheDigitsThatItsSpreadLeaves) {
  EXPECT_EQ(words(Learnt{Constant::pot_thermometer, -0.9482, 0.1213, 0.0, 0.5}).now,
            "-0.95 ± 0.12 K");
  EXPECT_EQ(words(Learnt{Constant::hold_up, 214.7, 31.2, 210.0, 60.0}).before, "210 ± 60 mL");
  EXPECT_EQ(words(Learnt{Constant::jar, -0.001, 0.4, 0.0, 0.5}).now, "0.00 ± 0.40 %");
}

}  // namespace
}  // namespace lynearm::still
