// The fit of a still on readings made by its own model, where the truth is known exactly.
#include "still/fit_still.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"
#include "still/runs.hpp"
#include "still/sight.hpp"

namespace lynearm::still {
namespace {

using testing::HasSubstr;
using units::Duration;
using units::Power;
using units::Temperature;

// What a kit states, and what the still is.
RunSetting stated() {
  RunSetting kit;
  kit.head.loss = units::HeatLoss::watts_per_kelvin(3.5);
  kit.head.wall = units::HeatCapacity::kilojoules_per_kelvin(1.5);
  kit.heating.power = Power::watts(1500.0);
  kit.heating.efficiency = units::Share::percent(94.0);
  kit.heating.loss = units::HeatLoss::watts_per_kelvin(3.0);
  kit.wall = units::HeatCapacity::kilojoules_per_kelvin(4.0);
  kit.hold_up.parrot = units::Volume::millilitres(150.0);
  return kit;
}

Figures truth() {
  Figures f;
  f.head_loss_W_per_K = 4.4;
  f.pot_loss_W_per_K = 2.4;
  f.efficiency = 0.90;
  f.hold_up_L = 0.21;
  f.pot_offset_K = 0.4;
  f.head_offset_K = -0.3;
  f.hydrometer_percent = 0.2;
  f.strength_percent = -0.8;
  f.volume_factor = 1.01;
  f.charge_K = 0.5;
  return f;
}

struct Read {
  bool pot = true, head = true, spout = true, collected = true;
};

// A log of the true still, every six minutes; exact but for the thermometers' offsets.
RecordedRun logged(const std::vector<PowerStep>& powers, const Read& read = {},
                   const Figures& is = truth(), double charge_percent = 27.0) {
  RecordedRun run;
  run.name = "run";
  run.charge = charge_of(20.0, charge_percent);
  run.setting = stated();
  RunSetting setting = with(run.setting, is);
  setting.heating.power = powers.front().power;
  setting.power_steps.assign(powers.begin() + 1, powers.end());
  Stop stop;
  stop.spout_strength = units::VolumeStrength::percent(15.0);
  const Run really = distil(with(run.charge, is), setting, at_one_atmosphere(), stop);
  for (const PowerStep& step : powers) {
    Reading r;
    r.at = std::get<Duration>(step.from);
    r.power = step.power;
    run.record.readings.push_back(r);
  }
  const auto shift = [](Temperature t, double by_K) {
    return t + units::TemperatureChange::kelvins(by_K);
  };
  for (double minute = 6.0; minute < really.last().since_start.minutes(); minute += 6.0) {
    const Sight at = sight(really, Duration::minutes(minute));
    Reading r;
    r.at = Duration::minutes(minute);
    r.line = static_cast<int>(run.record.readings.size()) + 2;
    if (read.pot && at.pot) r.pot_temperature = shift(*at.pot, is.pot_offset_K);
    if (read.head && at.head) r.head_temperature = shift(*at.head, is.head_offset_K);
    if (read.spout && at.spout) {
      r.spout = spirit::Reading{at.spout->percent() + is.hydrometer_percent,
                                spirit::Scale::percent_vol};
      r.spout_temperature = Temperature::celsius(20.0);
    }
    if (read.collected) r.collected = at.collected;
    run.record.readings.push_back(r);
  }
  return run;
}

std::vector<PowerStep> one_power() { return {{Duration{}, Power::watts(1700.0)}}; }
std::vector<PowerStep> two_powers() {
  return {{Duration{}, Power::watts(1900.0)}, {Duration::minutes(100.0), Power::watts(1300.0)}};
}

TEST(FitStill, GivesBackTheConstantsThatMadeExactReadings) {
  const StillFit fit = fit_still({logged(two_powers())});
  const Figures is = truth();
  const auto expect = [&](StillConstant constant, double really, double within, int run = -1) {
    const FittedConstant& c = fit.of(constant, run);
    EXPECT_NEAR(c.value, really, within) << words(constant);
    // The beliefs pull a little; never by as much as the uncertainty that is stated.
    EXPECT_NEAR(c.value, really, 0.7 * c.sd) << words(constant);
    EXPECT_LT(c.low, really) << words(constant);
    EXPECT_GT(c.high, really) << words(constant);
  };
  expect(StillConstant::head_loss, is.head_loss_W_per_K, 0.05);
  expect(StillConstant::pot_loss, is.pot_loss_W_per_K, 0.15);
  expect(StillConstant::heating_efficiency, is.efficiency, 0.01);
  expect(StillConstant::hold_up, is.hold_up_L, 0.01);
  expect(StillConstant::pot_thermometer, is.pot_offset_K, 0.04);
  expect(StillConstant::head_thermometer, is.head_offset_K, 0.04);
  expect(StillConstant::hydrometer, is.hydrometer_percent, 0.1);
  expect(StillConstant::charge_strength, is.strength_percent, 0.2, 0);
  for (const InstrumentFit& i : fit.instruments)
    EXPECT_EQ(i.outlying, 0) << words(i.instrument);
  EXPECT_EQ(fit.instruments.size(), 4u);
}

TEST(FitStill, SaysWhatHeadTemperaturesAloneCannotTell) {
  const StillFit fit =
      fit_still({logged(one_power(), {.pot = false, .spout = false, .collected = false})});
  EXPECT_FALSE(fit.of(StillConstant::pot_thermometer).told);
  EXPECT_FALSE(fit.of(StillConstant::hydrometer).told);
  EXPECT_FALSE(fit.of(StillConstant::hold_up).told);
  // What was not looked at stays where it was believed to be, as widely.
  EXPECT_NEAR(fit.of(StillConstant::hydrometer).left_open, 1.0, 1e-6);
  EXPECT_NEAR(fit.of(StillConstant::hydrometer).value, 0.0, 1e-6);
  const std::vector<std::string> said = account(fit);
  ASSERT_FALSE(said.empty());
  EXPECT_THAT(said.front(), HasSubstr("Not told by this run:"));
  EXPECT_THAT(said.front(), HasSubstr("pot thermometer"));
  EXPECT_THAT(said.front(), HasSubstr("hydrometer"));
}

TEST(FitStill, TellsHeadLossFromEfficiencyBetterWithTwoPowersThanWithOne) {
  const Read read = {.pot = false, .spout = false};
  const StillFit one = fit_still({logged(one_power(), read)});
  const StillFit two = fit_still({logged(two_powers(), read)});
  EXPECT_LT(two.of(StillConstant::head_loss).sd, 0.7 * one.of(StillConstant::head_loss).sd);
  EXPECT_LT(two.of(StillConstant::heating_efficiency).sd,
            0.7 * one.of(StillConstant::heating_efficiency).sd);
  EXPECT_LT(two.correlation(0, 2), 0.7 * one.correlation(0, 2));
  const auto advises = [](const StillFit& fit) {
    const std::vector<std::string> said = account(fit);
    return std::any_of(said.begin(), said.end(), [](const std::string& s) {
      return s.find("at one power") != std::string::npos;
    });
  };
  EXPECT_TRUE(advises(one));
  EXPECT_FALSE(advises(two));
}

TEST(FitStill, DoesNotFollowAMistypedReading) {
  RecordedRun run = logged(two_powers());
  const StillFit before = fit_still({run});
  Reading& wrong = run.record.readings[30];
  ASSERT_TRUE(wrong.head_temperature);
  const double shown_C = wrong.head_temperature->celsius() + 10.0;
  wrong.head_temperature = Temperature::celsius(shown_C);
  const StillFit after = fit_still({run});
  for (std::size_t k = 0; k < before.constants.size(); ++k) {
    EXPECT_NEAR(after.constants[k].value, before.constants[k].value,
                0.3 * before.constants[k].sd)
        << words(before.constants[k].constant);
  }
  std::vector<FittedReading> outlying;
  for (const FittedReading& r : after.readings) {
    if (r.outlying) outlying.push_back(r);
  }
  ASSERT_EQ(outlying.size(), 1u);
  EXPECT_EQ(outlying[0].seen.line, wrong.line);
  EXPECT_EQ(outlying[0].seen.figure, shown_C);
  EXPECT_NEAR(outlying[0].expected, shown_C - 10.0, 0.1);
}

TEST(FitStill, DoesNotAskForReadingsInOrder) {
  RecordedRun run = logged(two_powers());
  const StillFit in_order = fit_still({run});
  std::reverse(run.record.readings.begin() + 2, run.record.readings.end());
  const StillFit reversed = fit_still({run});
  for (std::size_t k = 0; k < in_order.constants.size(); ++k) {
    EXPECT_DOUBLE_EQ(reversed.constants[k].value, in_order.constants[k].value);
  }
}

TEST(FitStill, SharesTheStillAmongRunsAndLeavesEachItsCharge) {
  Figures second = truth();
  second.strength_percent = 1.1;
  second.volume_factor = 0.99;
  const RecordedRun a = logged(one_power());
  const RecordedRun b = logged(two_powers(), {}, second, 32.0);
  const StillFit alone = fit_still({a});
  const StillFit both = fit_still({a, b});
  EXPECT_EQ(both.constants.size(), alone.constants.size() + 4);
  EXPECT_LT(both.of(StillConstant::head_loss).sd, alone.of(StillConstant::head_loss).sd);
  EXPECT_NEAR(both.of(StillConstant::charge_strength, 0).value, truth().strength_percent, 0.2);
  EXPECT_NEAR(both.of(StillConstant::charge_strength, 1).value, second.strength_percent, 0.2);
  EXPECT_EQ(name_of(both.constants.back(), 2), "power at first of run 2");
}

TEST(FitStill, RefusesWhatTellsNothing) {
  const auto field_of = [](const std::vector<RecordedRun>& runs) {
    try {
      (void)fit_still(runs);
    } catch (const base::InputError& error) {
      return error.faults().front().field;
    }
    return std::string("nothing");
  };
  EXPECT_EQ(field_of({}), "runs");
  RecordedRun only_power = logged(one_power());
  only_power.record.readings.resize(1);
  EXPECT_EQ(field_of({only_power}), "runs[0].record");
  EXPECT_EQ(field_of({logged(one_power()), only_power}), "runs[1].record");
}

}  // namespace
}  // namespace lynearm::still
