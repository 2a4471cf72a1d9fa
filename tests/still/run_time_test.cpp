// A run in time: warming, the cold head, coil and parrot, changes of the fire.
#include <gtest/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "still/heat_up.hpp"
#include "still/runs.hpp"
#include "still/sight.hpp"

namespace lynearm::still {
namespace {

using units::Duration;
using units::Power;
using units::Share;
using units::Temperature;
using units::Volume;

// A 20 L pot with a bare copper head: sizes common in the trade, losses our estimate.
RunSetting small_still(double watts) {
  RunSetting setting;
  setting.heating.power = Power::watts(watts);
  setting.heating.loss = units::HeatLoss::watts_per_kelvin(1.5);
  setting.wall = units::HeatCapacity::joules_per_kelvin(2500.0);
  setting.head.loss = units::HeatLoss::watts_per_kelvin(0.8);
  setting.head.wall = units::HeatCapacity::joules_per_kelvin(600.0);
  return setting;
}

TEST(RunInTime, ComesToTheBoilWhenTheHeatBalanceSays) {
  const Charge charge = charge_of(14.0, 28.0);
  const RunSetting setting = small_still(1500.0);
  Boiler boiler;
  boiler.power = setting.heating.power;
  boiler.loss = setting.heating.loss;
  boiler.wall = setting.wall;
  const HeatUp up = heat_up(charge, boiler, setting.heating.ambient, at_one_atmosphere());
  const still::Run run = distil(charge, setting, at_one_atmosphere(), spout_at(20.0));
  // The closed form has one mean heat capacity; the run follows it as it rises.
  EXPECT_NEAR(run.boiling / up.duration, 1.0, 2e-3);
}

TEST(RunInTime, WarmsTheHeadBeforeVapourPasses) {
  const Charge charge = charge_of(14.0, 28.0);
  RunSetting setting = small_still(1500.0);
  const still::Run run = distil(charge, setting, at_one_atmosphere(), spout_at(20.0));
  const double warmed_s = run.first().since_boiling.seconds();
  // 600 J/K from 20 °C to where the vapour's own drops boil, by some 1400 W less the head's
  // loss, 25 W in the mean.
  const double rise_K =
      (at_one_atmosphere().temperature(run.first().rising_ethanol) - Temperature::celsius(20.0))
          .kelvins();
  EXPECT_NEAR(warmed_s, 600.0 * rise_K / 1375.0, 0.02 * warmed_s);
  setting.head.wall = {};
  const still::Run light = distil(charge, setting, at_one_atmosphere(), spout_at(20.0));
  EXPECT_EQ(light.first().since_boiling.seconds(), 0.0);
  EXPECT_NEAR(light.last().collected.litres(), run.last().collected.litres(), 1e-7);
}

TEST(RunInTime, WithAParrotShowsTheSpiritLateAndBlunted) {
  const Charge charge = charge_of(14.0, 28.0);
  RunSetting setting = small_still(1500.0);
  const still::Run plain = distil(charge, setting, at_one_atmosphere(), spout_at(5.0));
  setting.hold_up = {Volume::millilitres(30.0), Volume::millilitres(120.0)};
  const still::Run held = distil(charge, setting, at_one_atmosphere(), spout_at(5.0));
  EXPECT_GT(held.first().since_start, plain.first().since_start);
  EXPECT_NEAR(spirit::volume(held.first().held).litres(), 0.15, 1e-8);
  EXPECT_NEAR(held.first().collected.litres(), 0.0, 1e-8);
  // Mid-run the parrot shows what left the head one held volume ago, to a few per cent of it.
  const Point now = point_at_volume(held, Volume::litres(4.0));
  EXPECT_GT(now.spout_ethanol, now.leaving_ethanol);
  const Point before = point_at_volume(held, Volume::litres(4.0 - 0.15));
  EXPECT_NEAR(now.spout_ethanol.fraction(), before.leaving_ethanol.fraction(), 0.003);
}

TEST(RunInTime, HeldSpiritIsNotLost) {
  const Charge charge = charge_of(14.0, 28.0);
  RunSetting setting = small_still(1500.0);
  setting.hold_up = {Volume::millilitres(30.0), Volume::millilitres(120.0)};
  const still::Run run = distil(charge, setting, at_one_atmosphere(), spout_at(5.0));
  for (const Point& point : run.points) {
    const double pot_mol = point.in_pot.moles();
    const Moles out = moles(point.distillate + point.held);
    EXPECT_NEAR((pot_mol + out.total().moles()) / moles(charge.spirit).total().moles(), 1.0,
                1e-12);
    // Poured together the two would shrink a little.
    EXPECT_NEAR(spirit::volume(point.held).litres(), 0.15, 5e-6);
  }
}

TEST(RunInTime, AtALowerFireRunsStrongerAtFirstAndFallsMoreSharply) {
  const Charge charge = charge_of(14.0, 28.0);
  const still::Run fast =
      distil(charge, small_still(2500.0), at_one_atmosphere(), spout_at(10.0));
  const still::Run slow =
      distil(charge, small_still(500.0), at_one_atmosphere(), spout_at(10.0));
  EXPECT_GT(slow.first().spout.percent(), fast.first().spout.percent() + 1.0);
  const auto fall_L = [](const still::Run& run) {
    return when_spout_falls_to(run, units::VolumeStrength::percent(30.0))->collected.litres() -
           when_spout_falls_to(run, units::VolumeStrength::percent(65.0))->collected.litres();
  };
  EXPECT_LT(fall_L(slow), fall_L(fast));
}

TEST(RunInTime, TurnsTheFireDownAtAVolume) {
  const Charge charge = charge_of(14.0, 28.0);
  RunSetting setting = small_still(2000.0);
  setting.power_steps = {{Volume::litres(1.0), Power::watts(700.0)}};
  const still::Run run = distil(charge, setting, at_one_atmosphere(), spout_at(10.0));
  ASSERT_EQ(run.smooth.size(), 2u);
  const Point& before = run.points[run.smooth[1] - 1];
  const Point& after = run.points[run.smooth[1]];
  EXPECT_NEAR(before.collected.litres(), 1.0, 1e-9);
  EXPECT_EQ(before.since_start, after.since_start);
  // The same pot, a gentler fire: stronger at once, and slower.
  EXPECT_NEAR(before.pot_ethanol.fraction(), after.pot_ethanol.fraction(), 1e-15);
  EXPECT_GT(after.spout.percent(), before.spout.percent());
  EXPECT_LT(after.flow, before.flow * 0.5);
  // The meter: until then 2000 W, then 700.
  const double drawn_J = 2000.0 * before.since_boiling.seconds() +
                         700.0 * (run.last().since_boiling - before.since_boiling).seconds();
  EXPECT_NEAR(run.last().drawn.joules() / drawn_J, 1.0, 1e-12);
}

TEST(RunInTime, TakesTheFireOfTheBoilUntilItBoils) {
  const Charge charge = charge_of(14.0, 28.0);
  RunSetting setting = small_still(700.0);
  setting.to_the_boil = Power::watts(2000.0);
  const still::Run run = distil(charge, setting, at_one_atmosphere(), spout_at(10.0));
  const still::Run fast =
      distil(charge, small_still(2000.0), at_one_atmosphere(), spout_at(10.0));
  EXPECT_NEAR(run.boiling / fast.boiling, 1.0, 1e-12);
  EXPECT_NEAR(run.drawn_to_boil.joules() / (2000.0 * run.boiling.seconds()), 1.0, 1e-9);
  EXPECT_NEAR(run.last().drawn.joules() / (700.0 * run.last().since_boiling.seconds()), 1.0,
              1e-9);
}

TEST(RunInTime, IsSeenAtAnyTime) {
  const Charge charge = charge_of(14.0, 28.0);
  RunSetting setting = small_still(1500.0);
  setting.hold_up.parrot = Volume::millilitres(100.0);
  const still::Run run = distil(charge, setting, at_one_atmosphere(), spout_at(10.0));
  const Sight cold = sight(run, Duration::seconds(0.0));
  EXPECT_NEAR(cold.pot->celsius(), 20.0, 1e-9);
  EXPECT_FALSE(cold.spout.has_value());
  const Sight half = sight(run, run.boiling * 0.5);
  EXPECT_GT(half.pot->celsius(), 45.0);
  EXPECT_LT(half.pot->celsius(), 65.0);
  EXPECT_NEAR(half.head->celsius(), 20.0, 1e-9);
  const Point& mid = run.points[run.points.size() / 2];
  const Sight there = sight(run, mid.since_start);
  EXPECT_EQ(*there.spout, mid.spout);
  EXPECT_EQ(there.collected, mid.collected);
  const Sight past = sight(run, run.last().since_start + Duration::minutes(1.0));
  EXPECT_FALSE(past.spout.has_value());
  EXPECT_EQ(past.collected, run.last().collected);
}

TEST(RunInTime, CarriesCongenersAndLosesNoneOfThem) {
  Charge charge = charge_of(14.0, 28.0);
  charge.congeners.emplace();
  charge.congeners->grams.fill(2.0);
  RunSetting setting = small_still(1500.0);
  setting.hold_up = {Volume::millilitres(30.0), Volume::millilitres(120.0)};
  const vapour::CongenerCurve volatility(at_one_atmosphere());
  const still::Run run =
      distil(charge, setting, at_one_atmosphere(), spout_at(5.0), &volatility);
  ASSERT_EQ(run.congeners_in_pot.size(), run.points.size());
  for (std::size_t k = 0; k < vapour::congener_count; ++k) {
    double last = -1.0;
    for (std::size_t i = 0; i < run.points.size(); i += 7) {
      const double collected = run.congeners_collected(i).grams[k];
      EXPECT_GE(collected, last) << vapour::congeners()[k].id;
      last = collected;
    }
    EXPECT_LE(last, 2.0);
  }
  // Carrying them changes nothing else.
  Charge plain = charge;
  plain.congeners.reset();
  const still::Run without = distil(plain, setting, at_one_atmosphere(), spout_at(5.0));
  EXPECT_NEAR(run.last().collected / without.last().collected, 1.0, 1e-7);
}

TEST(RunInTime, WithAFireTooLowIsRefusedWithWhatItWouldTake) {
  const Charge charge = charge_of(14.0, 28.0);
  try {
    (void)distil(charge, small_still(140.0), at_one_atmosphere(), spout_at(10.0));
    FAIL();
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().front().field, "run.heating.power");
    EXPECT_EQ(error.faults().front().value, "140 W");
  }
}

TEST(RunInTime, PowerStepsOutOfOrderAreRefused) {
  const Charge charge = charge_of(14.0, 28.0);
  RunSetting setting = small_still(1500.0);
  setting.power_steps = {{Volume::litres(2.0), Power::watts(700.0)},
                         {Volume::litres(1.0), Power::watts(500.0)}};
  try {
    (void)distil(charge, setting, at_one_atmosphere(), spout_at(10.0));
    FAIL();
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().front().field, "run.power_steps");
    EXPECT_EQ(error.faults().front().value, "1 L after 2 L");
  }
}

TEST(RunInTime, WithAParrotThatThePotCannotFillIsRefused) {
  RunSetting setting = small_still(1500.0);
  setting.hold_up.parrot = Volume::litres(3.0);
  try {
    (void)distil(charge_of(2.0, 28.0), setting, at_one_atmosphere(), spout_at(10.0));
    FAIL();
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().front().field, "run.hold_up");
  }
}

TEST(RunInTime, TakesAStepAtTheVeryStart) {
  // Once the integrator was asked for a step of no length.
  RunSetting setting = small_still(1500.0);
  setting.power_steps = {{Duration::seconds(0.0), Power::watts(900.0)}};
  const still::Run run =
      distil(charge_of(14.0, 28.0), setting, at_one_atmosphere(), spout_at(10.0));
  const still::Run plain =
      distil(charge_of(14.0, 28.0), small_still(900.0), at_one_atmosphere(), spout_at(10.0));
  EXPECT_NEAR(run.last().since_start / plain.last().since_start, 1.0, 1e-9);
}

TEST(RunInTime, EndsByTimeAlsoWhileItStands) {
  RunSetting setting = small_still(1500.0);
  setting.power_steps = {{Duration::minutes(100.0), Power::watts(0.0)},
                         {Duration::minutes(200.0), Power::watts(1500.0)}};
  Stop stop;
  stop.after = Duration::minutes(150.0);
  const still::Run run = distil(charge_of(14.0, 28.0), setting, at_one_atmosphere(), stop);
  EXPECT_EQ(run.ending, Ending::time);
  EXPECT_NEAR(run.last().since_start.minutes(), 100.0, 1e-9);
  EXPECT_NEAR(run.quiet.back().since_start.minutes(), 150.0, 1e-9);
  // Without a later step it stands, and ends all the same.
  setting.power_steps.pop_back();
  EXPECT_EQ(distil(charge_of(14.0, 28.0), setting, at_one_atmosphere(), stop).ending,
            Ending::time);
}

TEST(RunInTime, OfACooledHeadTakesItNoColderThanTheRoom) {
  RunSetting setting = small_still(1500.0);
  setting.head.cooling = Power::watts(1400.0);
  setting.power_steps = {{Duration::minutes(240.0), Power::watts(2500.0)}};
  const still::Run run =
      distil(charge_of(14.0, 28.0), setting, at_one_atmosphere(), spout_at(10.0));
  for (const Quiet& quiet : run.quiet) {
    EXPECT_GE(quiet.head_temperature.celsius(), 20.0 - 1e-6);
  }
}

}  // namespace
}  // namespace lynearm::still
