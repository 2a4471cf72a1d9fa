#include "still/follow.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <thread>

#include "spirit/lot.hpp"
#include "still/follow_bands.hpp"
#include "still/follow_fire.hpp"
#include "still/follow_move.hpp"
#include "still/followed.hpp"

namespace lynearm::still {
namespace {

using units::Duration;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

TEST(Fire, OfNoPowerIsHeatOffAndALaterPowerIsHeatOnAgain) {
  // As fit-still reads the same log; once it was refused as a fire no still would run on.
  RunSetting plan;
  plan.heating.power = units::Power::watts(2000.0);
  const Fire fire =
      read_fire({power_at(60.0, 2000.0), power_at(100.0, 0.0), power_at(130.0, 1800.0)}, plan,
                Duration::minutes(50.0), Duration::minutes(140.0));
  EXPECT_FALSE(fire.stopped_at.has_value());
  ASSERT_EQ(fire.steps.size(), 3u);
  EXPECT_EQ(std::get<Duration>(fire.steps[1].from), Duration::minutes(100.0));
  EXPECT_EQ(fire.steps[1].power, units::Power{});
  EXPECT_EQ(fire.steps[2].power, units::Power::watts(1800.0));
  const Fire off = read_fire({power_at(60.0, 2000.0), power_at(100.0, 0.0)}, plan,
                             Duration::minutes(50.0), Duration::minutes(140.0));
  EXPECT_EQ(off.stopped_at, Duration::minutes(100.0));
}

numeric::Executor on_four_threads() {
  return [](std::size_t count, const std::function<void(std::size_t)>& task) {
    std::vector<std::thread> threads;
    for (std::size_t t = 0; t < 4; ++t) {
      threads.emplace_back([&, t] {
        for (std::size_t i = t; i < count; i += 4) task(i);
      });
    }
    for (std::thread& thread : threads) thread.join();
  };
}

const NextDecision& find(const Forecast& forecast, Decision decision) {
  return *std::find_if(forecast.decisions.begin(), forecast.decisions.end(),
                       [decision](const auto& d) { return d.decision == decision; });
}

Reading pot_at(double minutes, double celsius) {
  Reading reading;
  reading.at = Duration::minutes(minutes);
  reading.pot_temperature = Temperature::celsius(celsius);
  return reading;
}

TEST(Follow, InAMinuteThatIsWellReadOnlyAReadingThatMendsASlipIsWeighed) {
  Follower by = follower();
  const auto read = [&by](double minutes) {
    const auto shown = [&](Instrument instrument) {
      return by.shown_at(instrument, Duration::minutes(minutes))->median;
    };
    Reading reading = pot_at(minutes, shown(Instrument::pot_thermometer));
    reading.head_temperature = Temperature::celsius(shown(Instrument::head_thermometer));
    return by.take(reading, numeric::one_after_another()).crowded;
  };
  // Five of each in the two minutes about one.
  for (std::size_t i = 0; i < weighed_as_they_come / 2; ++i) {
    EXPECT_TRUE(read(60.0 + 0.4 * static_cast<double>(i)).empty());
  }
  EXPECT_EQ(read(80.2),
            (std::vector{Instrument::pot_thermometer, Instrument::head_thermometer}));
  EXPECT_EQ(by.figures().size(), weighed_as_they_come);
  const double expected =
      by.shown_at(Instrument::pot_thermometer, Duration::minutes(40.0))->median;
  const Update slip = by.take(pot_at(40.0, expected - 40.0), numeric::one_after_another());
  ASSERT_EQ(slip.doubts.size(), 1U);
  const Update mended = by.take(pot_at(40.2, expected), numeric::one_after_another());
  EXPECT_TRUE(mended.crowded.empty());
  EXPECT_TRUE(mended.doubts.empty());
  EXPECT_EQ(by.take(pot_at(40.4, expected), numeric::one_after_another()).crowded.size(), 1U);
  // Whatever is said of the fire is taken all the same.
  Reading off = pot_at(40.5, expected);
  off.event = Event::stopped;
  const Update stopped = by.take(off, numeric::one_after_another());
  EXPECT_EQ(stopped.crowded.size(), 1U);
  EXPECT_FALSE(stopped.now.heated);
}

TEST(Follow, AnUnreadStillIsExpectedAsTheKitSays) {
  const Follower fresh = follower();
  for (const Learnt& learnt : fresh.constants()) {
    // The mean of 200 draws: within four of its standard errors.
    EXPECT_NEAR(learnt.value, learnt.before, 4.0 * learnt.before_sd / std::sqrt(200.0))
        << words(learnt.constant);
  }
  const Forecast forecast = fresh.forecast(numeric::one_after_another(), 20);
  EXPECT_FALSE(find(forecast, Decision::hearts_end).passed);
  EXPECT_TRUE(find(forecast, Decision::hearts_end).in.has_value());
}

TEST(Follow, ReadingsNarrowWhatIsExpected) {
  Follower followed = follower();
  const auto width = [&] {
    const auto in =
        find(followed.forecast(numeric::one_after_another(), 20), Decision::hearts_end).at;
    return (in->high - in->low).minutes();
  };
  const double before = width();
  for (const Reading& reading : exact_readings(Duration::minutes(100.0))) {
    followed.take(reading, numeric::one_after_another());
  }
  EXPECT_LT(width(), 0.35 * before);
  EXPECT_TRUE(followed.doubts().empty());
}

TEST(Follow, AStrengthWithoutTheSpiritsWarmthIsBelievedLess) {
  const Duration at = Duration::minutes(100.0);
  const auto width_after = [&](std::optional<Temperature> warmth) {
    Follower by = follower();
    Reading reading;
    reading.at = at;
    reading.spout = spirit::Reading{by.shown_at(Instrument::hydrometer, at)->median,
                                    spirit::Scale::percent_vol};
    reading.spout_temperature = warmth;
    by.take(reading, numeric::one_after_another());
    const auto shown = by.shown_at(Instrument::hydrometer, at + Duration::minutes(5.0));
    return shown->high - shown->low;
  };
  const auto unread = follower().shown_at(Instrument::hydrometer, at + Duration::minutes(5.0));
  const double told = width_after(Temperature::celsius(20.0));
  const double untold = width_after(std::nullopt);
  EXPECT_GT(untold, 1.5 * told);
  EXPECT_LT(untold, unread->high - unread->low) << "and it still says something";
}

TEST(Follow, TheSameForAnyNumberOfThreads) {
  Follower one = follower(), four = follower();
  for (const Reading& reading : exact_readings(Duration::minutes(90.0))) {
    const Update a = one.take(reading, numeric::one_after_another());
    const Update b = four.take(reading, on_four_threads());
    EXPECT_EQ(a.effective_members, b.effective_members);
    EXPECT_EQ(a.now.pot.median, b.now.pot.median);
  }
  const Forecast a = one.forecast(numeric::one_after_another(), 20);
  const Forecast b = four.forecast(on_four_threads(), 20);
  EXPECT_EQ(find(a, Decision::hearts_end).at->median, find(b, Decision::hearts_end).at->median);
  EXPECT_EQ(a.by_volume.back().head.low, b.by_volume.back().head.low);
}

TEST(Follow, AMistypedStrengthIsKeptNotBelieved) {
  Follower followed = follower();
  for (const Reading& reading : exact_readings(Duration::minutes(100.0))) {
    followed.take(reading, numeric::one_after_another());
  }
  const double before = followed.now().spout->median.percent();
  Reading slip;
  slip.at = Duration::minutes(101.0);
  slip.spout = spirit::Reading{37.2, spirit::Scale::percent_vol};
  slip.spout_temperature = Temperature::celsius(20.0);
  const Update update = followed.take(slip, numeric::one_after_another());
  ASSERT_EQ(update.doubts.size(), 1U);
  EXPECT_EQ(update.doubts[0].instrument, Instrument::hydrometer);
  EXPECT_GT(update.doubts[0].slip, 0.99);
  EXPECT_LT(update.doubts[0].low, before);
  EXPECT_GT(update.doubts[0].high, before - 0.5);
  EXPECT_THAT(sentence(update.doubts[0]), testing::StartsWith("does not fit (expected 7"));
  EXPECT_NEAR(update.now.spout->median.percent(), before, 0.3);
}

TEST(Follow, NothingBelowNoughtIsExpectedToHaveComeOver) {
  Doubt jar{};
  jar.instrument = Instrument::jar;
  jar.low = -12.0;
  jar.high = 12.0;
  EXPECT_EQ(sentence(jar), "does not fit (expected 0–12 mL)");
}

TEST(Follow, ALateReadingCountsAsIfItHadComeInTime) {
  std::vector<Reading> readings = exact_readings(Duration::minutes(110.0));
  Follower in_order = follower(400), late = follower(400);
  for (const Reading& reading : readings) in_order.take(reading, numeric::one_after_another());
  std::rotate(readings.begin(), readings.begin() + 3, readings.begin() + 4);
  for (const Reading& reading : readings) late.take(reading, numeric::one_after_another());
  // The same posterior, met by other draws: within their noise.
  const auto end_of = [](const Follower& f) {
    return find(f.forecast(numeric::one_after_another(), 20), Decision::hearts_end)
        .at->median.minutes();
  };
  EXPECT_NEAR(end_of(in_order), end_of(late), 2.5);
  EXPECT_EQ(in_order.now().at, late.now().at);
}

TEST(Follow, ALowerPowerPutsTheEndOff) {
  Follower followed = follower();
  for (const Reading& reading : exact_readings(Duration::minutes(100.0))) {
    followed.take(reading, numeric::one_after_another());
  }
  const auto end = [&] {
    return find(followed.forecast(numeric::one_after_another(), 20), Decision::hearts_end)
        .at->median;
  };
  Reading as_it_burns;
  as_it_burns.at = Duration::minutes(55.0);
  as_it_burns.power = units::Power::watts(1500.0);
  followed.take(as_it_burns, numeric::one_after_another());
  const Duration before = end();
  Reading lower;
  lower.at = Duration::minutes(100.0);
  lower.power = units::Power::watts(1200.0);
  followed.take(lower, numeric::one_after_another());
  EXPECT_GT(end() - before, Duration::minutes(8.0));
}

TEST(Follow, AStoppedRunGivesVolumesButNoTimesUntilItGoesOn) {
  Follower followed = follower();
  for (const Reading& reading : exact_readings(Duration::minutes(100.0))) {
    followed.take(reading, numeric::one_after_another());
  }
  const auto hearts_end = [&] {
    return find(followed.forecast(numeric::one_after_another(), 20), Decision::hearts_end);
  };
  const NextDecision before = hearts_end();
  Reading stopped;
  stopped.at = Duration::minutes(101.0);
  stopped.event = Event::stopped;
  EXPECT_FALSE(followed.take(stopped, numeric::one_after_another()).now.heated);
  EXPECT_FALSE(hearts_end().in.has_value());
  ASSERT_TRUE(hearts_end().collected.has_value());
  EXPECT_NEAR(hearts_end().collected->median.litres(), before.collected->median.litres(), 0.15);
  Reading resumed;
  resumed.at = Duration::hours(20.0);
  resumed.event = Event::resumed;
  resumed.power = units::Power::watts(1500.0);
  EXPECT_TRUE(followed.take(resumed, numeric::one_after_another()).now.heated);
  ASSERT_TRUE(hearts_end().in.has_value());
  EXPECT_GT(hearts_end().in->low, before.in->high);
  EXPECT_LT(hearts_end().in->high, before.in->high + Duration::hours(2.0));
}

TEST(Follow, WhatNoInstrumentShowsIsRefusedAndChangesNothing) {
  Follower followed = follower();
  Reading wrong;
  wrong.at = Duration::minutes(50.0);
  wrong.head_temperature = Temperature::celsius(880.0);
  EXPECT_THROW(followed.take(wrong, numeric::one_after_another()), base::InputError);
  EXPECT_TRUE(followed.readings().empty());
}

TEST(Follow, BrokenOffHalfWayItStandsAsBefore) {
  Follower followed = followed_to(70.0);
  const Follower before = followed;
  const Reading lower = power_at(75.0, 1000.0);
  int left = 150;  // some runs are computed under the other fire
  const numeric::Executor breaks = [&](std::size_t count, const auto& task) {
    for (std::size_t k = 0; k < count; ++k) {
      if (--left == 0) throw std::runtime_error("broken off");
      task(k);
    }
  };
  EXPECT_THROW(followed.take(lower, breaks), std::runtime_error);
  EXPECT_EQ(followed.readings(), before.readings());
  EXPECT_EQ(followed.figures().size(), before.figures().size());
  EXPECT_EQ(followed.fire(), before.fire());
  EXPECT_EQ(followed.now().pot.median, before.now().pot.median);
  // And takes it the next time as one that was never broken off.
  Follower other = before;
  const Update again = followed.take(lower, numeric::one_after_another());
  const Update once = other.take(lower, numeric::one_after_another());
  EXPECT_EQ(again.effective_members, once.effective_members);
  EXPECT_EQ(again.now.pot.high, once.now.pot.high);
}

TEST(Follow, ACopyKeepsAPastState) {
  Follower followed = followed_to(70.0);
  const Follower past = followed;
  const units::VolumeStrength pot = past.now().pot.median;
  followed.take(power_at(75.0, 1000.0), numeric::one_after_another());
  followed.take(exact_readings(Duration::minutes(80.0)).back(), numeric::one_after_another());
  EXPECT_EQ(followed.readings().size(), past.readings().size() + 2);
  EXPECT_NE(followed.now().pot.median, pot);
  EXPECT_EQ(past.now().pot.median, pot);
}

TEST(Follow, ACutAtATemperatureOfTheHeadOrAVolumeIsForecastToo) {
  CutRules rules;
  rules.hearts_end = Temperature::celsius(92.0);
  rules.stop = Volume::litres(6.0);
  const Follower fresh(prior_of_kit(), rules, at_one_atmosphere(), 1, 200,
                       numeric::one_after_another());
  const Forecast forecast = fresh.forecast(numeric::one_after_another(), 20);
  EXPECT_NEAR(find(forecast, Decision::stop).collected->median.litres(), 6.0, 1e-3);
  EXPECT_LT(find(forecast, Decision::hearts_end).at->median,
            find(forecast, Decision::stop).at->median);
}

TEST(Follow, MembersOutsideTheRangeAreRefused) { EXPECT_THROW(follower(99), base::InputError); }

Fire fire_of(const std::vector<Reading>& readings) {
  return read_fire(readings, synthetic_kit(), Duration::minutes(42.0),
                   Duration::minutes(120.0));
}

TEST(Fire, ThePlanStandsWhileNothingElseIsRead) {
  EXPECT_TRUE(fire_of({}).steps.empty());
  const Fire heating = fire_of({power_at(0.0, 2300.0)});
  EXPECT_TRUE(heating.turns_down);
  const RunSetting driven = with_fire(synthetic_kit(), heating);
  EXPECT_EQ(driven.to_the_boil, units::Power::watts(2300.0));
  EXPECT_EQ(driven.heating.power, units::Power::watts(1500.0));
}

TEST(Fire, APowerReadAboutTheBoilIsTheTurningDown) {
  const RunSetting driven =
      with_fire(synthetic_kit(), fire_of({power_at(47.0, 1500.0), power_at(0.0, 2400.0)}));
  EXPECT_FALSE(driven.to_the_boil.has_value());
  EXPECT_EQ(driven.heating.power, units::Power::watts(2400.0));
  ASSERT_EQ(driven.power_steps.size(), 1U);
  EXPECT_EQ(std::get<Duration>(driven.power_steps[0].from), Duration::minutes(47.0));
}

TEST(Fire, APowerReadLongAfterTheBoilLeavesTheTurningDownAsPlanned) {
  const RunSetting driven = with_fire(synthetic_kit(), fire_of({power_at(100.0, 1200.0)}));
  EXPECT_TRUE(driven.to_the_boil.has_value());
  EXPECT_EQ(driven.heating.power, units::Power::watts(1500.0));
  ASSERT_EQ(driven.power_steps.size(), 1U);
  // The same power again is nothing new.
  EXPECT_TRUE(
      with_fire(synthetic_kit(), fire_of({power_at(100.0, 1495.0)})).power_steps.empty());
}

TEST(Fire, AStoppedRunGoesOnAtThePowerItHad) {
  Reading stopped, resumed;
  stopped.at = Duration::minutes(80.0);
  stopped.event = Event::stopped;
  const Fire standing = fire_of({stopped});
  EXPECT_EQ(standing.stopped_at, stopped.at);
  // Some time it will: 12 h after.
  EXPECT_EQ(std::get<Duration>(standing.steps.back().from), stopped.at + Duration::hours(12.0));
  EXPECT_EQ(standing.steps.back().power, units::Power::watts(1500.0));
  resumed.at = Duration::minutes(100.0);
  resumed.event = Event::resumed;
  const Fire on = fire_of({resumed, stopped});
  EXPECT_FALSE(on.stopped_at.has_value());
  EXPECT_EQ(std::get<Duration>(on.steps.back().from), resumed.at);
}

TEST(Track, AgreesWithSight) {
  const StillPrior prior = prior_of_kit();
  Stop stop;
  stop.spout_strength = VolumeStrength::percent(10.0);
  const auto run = distil(prior.charge, prior.setting, at_one_atmosphere(), stop);
  const Track track(run);
  double K = 0.0, percent = 0.0, mL = 0.0;
  for (double min = 1.0; min < run.last().since_start.minutes(); min += 0.7) {
    const Sight seen = sight(run, Duration::minutes(min));
    const Instant at = track.at(60.0 * min);
    if (seen.spout) {
      percent = std::max(percent, std::abs(at.spout_percent - seen.spout->percent()));
      K = std::max({K, std::abs(at.head_C - seen.head->celsius()),
                    std::abs(at.pot_C - seen.pot->celsius())});
    }
    mL = std::max(mL, std::abs(at.collected_mL - seen.collected.millilitres()));
  }
  EXPECT_LT(K, 0.03);
  EXPECT_LT(percent, 0.05);
  EXPECT_LT(mL, 2.0);
  const auto when = track.when_spout_falls_to(60.0);
  ASSERT_TRUE(when.has_value());
  EXPECT_NEAR(when->t_s,
              when_spout_falls_to(run, VolumeStrength::percent(60.0))->since_start.seconds(),
              10.0);
}

// The last stretch before a stop once counted as standing, with the strength of long ago.
TEST(Track, RunsUntilTheFireIsOut) {
  StillPrior prior = prior_of_kit();
  prior.setting.power_steps = {{Duration::minutes(101.0), units::Power{}},
                               {Duration::minutes(400.0), units::Power::watts(1500.0)}};
  Stop stop;
  stop.spout_strength = VolumeStrength::percent(10.0);
  const auto run = distil(prior.charge, prior.setting, at_one_atmosphere(), stop);
  const Track track(run);
  for (double min = 60.0; min < 101.0; min += 0.37) {
    const Instant at = track.at(60.0 * min);
    EXPECT_TRUE(at.runs()) << min;
    EXPECT_NEAR(at.spout_percent, sight(run, Duration::minutes(min)).spout->percent(), 0.05);
  }
  for (const double min : {101.1, 200.0, 399.0}) EXPECT_FALSE(track.at(60.0 * min).runs());
  EXPECT_TRUE(track.at(60.0 * 500.0).runs());
}

// Known answer: weighting draws of a wide density back to the prior gives the prior's moments.
TEST(Proposal, WeightsBringItsDrawsBackToThePrior) {
  std::vector<Standing> drawn(4000);
  std::vector<double> logs(drawn.size());
  std::vector<Standing> around(500);
  for (std::size_t k = 0; k < around.size(); ++k) around[k] = draw_prior(9, k);
  const Proposal proposal(around, std::vector<double>(around.size(), 1.0));
  double mean = 0.0, square = 0.0;
  for (std::size_t k = 0; k < drawn.size(); ++k) {
    proposal.draw(5, k, drawn[k]);
    logs[k] = proposal.log_prior_over(drawn[k]);
  }
  const std::vector<double> weights = weights_of(logs);
  for (std::size_t k = 0; k < drawn.size(); ++k) {
    mean += weights[k] * drawn[k][2];
    square += weights[k] * drawn[k][2] * drawn[k][2];
  }
  EXPECT_GT(effective_size(weights), 0.6 * 4000.0);
  // Standard errors of some 3000 effective draws: 0.018 and 0.026.
  EXPECT_NEAR(mean, 0.0, 0.07);
  EXPECT_NEAR(square, 1.0, 0.1);
}

TEST(Bands, OfEqualWeightsAreThoseOfTheSample) {
  std::vector<Weighted> sample;
  for (int i = 0; i <= 1000; ++i) sample.push_back({0.001 * i, 2.0});
  const numeric::Band band = weighted_band(sample);
  EXPECT_NEAR(band.low, 0.1, 1e-3);
  EXPECT_NEAR(band.median, 0.5, 1e-3);
  EXPECT_NEAR(band.high, 0.9, 1e-3);
}

TEST(Bands, AreWidenedAboutTheirMedian) {
  std::vector<Weighted> sample;
  for (int i = 0; i <= 1000; ++i) sample.push_back({0.001 * i, 2.0});
  widen(sample, 1.5);
  const numeric::Band band = weighted_band(sample);
  EXPECT_NEAR(band.low, 0.5 - 1.5 * 0.4, 2e-3);
  EXPECT_NEAR(band.median, 0.5, 1e-3);
  EXPECT_NEAR(band.high, 0.5 + 1.5 * 0.4, 2e-3);
}

// The generator is no mirror of the filter's model, but without the physics that it adds the
// two integrate one still: fixed steps of 2 s against adaptive ones.
TEST(SyntheticRun, WithoutItsStrangenessAgreesWithTheEngine) {
  SyntheticOptions options;
  options.strangeness = 0.0;
  options.changed_power = false;
  options.interrupted = 0.0;
  options.spread.hold_up_log = 0.0;
  const SyntheticRun made = synthetic_run(3, options);
  Charge charge = made.believed;
  charge.spirit = spirit::lot(made.truth.charge_volume, made.truth.charge_strength);
  RunSetting setting = made.kit;
  setting.to_the_boil.reset();
  setting.heating = {*made.kit.to_the_boil, made.truth.efficiency, made.truth.pot_loss,
                     made.kit.heating.ambient};
  setting.head.loss = made.truth.head_loss;
  for (const Reading& reading : made.record.readings) {
    if (reading.power && reading.at > Duration{}) {
      setting.power_steps.push_back({reading.at, *reading.power});
    }
  }
  Stop stop;
  stop.spout_strength = VolumeStrength::percent(12.0);
  const auto run = distil(charge, setting, at_one_atmosphere(), stop);
  for (const double percent : {75.0, 65.0, 50.0, 30.0}) {
    const auto theirs = made.when_spout_falls_to(VolumeStrength::percent(percent));
    const auto ours = when_spout_falls_to(run, VolumeStrength::percent(percent));
    ASSERT_TRUE(theirs && ours);
    // The curve is kept each 20 s, 12 mL; and the coil pushes its 60 mL where ours mixes them.
    EXPECT_NEAR(theirs->at.minutes(), ours->since_start.minutes(), 0.7) << percent;
    EXPECT_NEAR(theirs->collected.litres(), ours->collected.litres(), 0.03) << percent;
  }
}

}  // namespace
}  // namespace lynearm::still
