// Stop, cool, resume another day: the fire is out for a night in the middle of a run, and the
// record stays one run.
#include <gtest/gtest.h>

#include <cmath>

#include "still/congeners_of_run.hpp"
#include "still/runs.hpp"
#include "still/sight.hpp"
#include "vapour/congener_curve.hpp"
#include "vapour/enthalpy.hpp"

namespace lynearm::still {
namespace {

using units::Duration;
using units::HeatCapacity;
using units::HeatLoss;
using units::Power;
using units::Temperature;
using units::Volume;

constexpr Temperature room = Temperature::celsius(18.0);
constexpr Duration fire_out = Duration::hours(2.5);
constexpr Duration fire_on = Duration::hours(15.0);

const vapour::CongenerCurve& traces() {
  static const vapour::CongenerCurve curve(at_one_atmosphere());
  return curve;
}

Charge charge() {
  Charge made = charge_of(25.0, 28.0);
  made.congeners = usual_amounts(spirit::pure_alcohol(made.spirit));
  return made;
}

RunSetting day(bool by_loss) {
  RunSetting setting;
  if (by_loss) {
    setting.head.loss = HeatLoss::watts_per_kelvin(1.8);
    setting.head.wall = HeatCapacity::joules_per_kelvin(1200.0);
  } else {
    setting.head.fixed_reflux = units::Share::percent(8.0);
  }
  setting.heating = {Power::kilowatts(2.0), units::Share::percent(97.0),
                     HeatLoss::watts_per_kelvin(6.0), room};
  setting.wall = HeatCapacity::joules_per_kelvin(4500.0);
  return setting;
}

RunSetting two_days(bool by_loss) {
  RunSetting setting = day(by_loss);
  setting.power_steps = {{fire_out, Power{}}, {fire_on, Power::kilowatts(2.0)}};
  return setting;
}

still::Run running(const RunSetting& setting) {
  return distil(charge(), setting, at_one_atmosphere(), spout_at(20.0), &traces());
}

spirit::Lot in_pot(const Point& point) {
  const double n = point.in_pot.moles(), x = point.pot_ethanol.fraction();
  return lot({vapour::AmountOfSubstance::moles(n * x),
              vapour::AmountOfSubstance::moles(n * (1.0 - x))});
}

// The last point before the fire goes out and the first after it is back.
struct Gap {
  Point before, after;
  std::size_t i;
};
Gap gap(const still::Run& run) {
  for (std::size_t i = 0; i + 1 < run.points.size(); ++i) {
    if (run.points[i + 1].since_start - run.points[i].since_start > Duration::hours(6.0)) {
      return {run.points[i], run.points[i + 1], i};
    }
  }
  ADD_FAILURE() << "the run was not interrupted";
  return {run.first(), run.last(), 0};
}

class InterruptedRun : public ::testing::TestWithParam<bool> {};

TEST_P(InterruptedRun, StandsWithItsPotUnchangedAndGoesOnWhereItWas) {
  const still::Run run = running(two_days(GetParam()));
  const Gap night = gap(run);
  EXPECT_NEAR(night.before.since_start.hours(), 2.5, 1e-9);
  EXPECT_GT(night.after.since_start, fire_on);
  EXPECT_NEAR(night.after.pot / night.before.pot, 1.0, 1e-12);
  EXPECT_NEAR(night.after.in_pot.moles() / night.before.in_pot.moles(), 1.0, 1e-12);
  EXPECT_NEAR(night.after.spout / night.before.spout, 1.0, 1e-8);
  EXPECT_NEAR(night.after.collected / night.before.collected, 1.0, 1e-12);
  EXPECT_NEAR(night.after.pot_temperature.kelvins() / night.before.pot_temperature.kelvins(),
              1.0, 1e-9);
  EXPECT_EQ(run.congeners_in_pot[night.i].grams, run.congeners_in_pot[night.i + 1].grams);
}

TEST_P(InterruptedRun, ClosesItsBalancesAsAnyOther) {
  const still::Run run = running(two_days(GetParam()));
  const Point& end = run.last();
  const spirit::Lot pot = in_pot(end);
  const spirit::Lot parts = end.distillate + end.held + pot;
  EXPECT_NEAR(parts.ethanol / run.charge.spirit.ethanol, 1.0, 1e-8);
  EXPECT_NEAR(parts.water / run.charge.spirit.water, 1.0, 1e-8);
  const CongenerAmounts came = run.congeners_collected(run.points.size() - 1);
  for (std::size_t i = 0; i < vapour::congener_count; ++i) {
    const double all = came.grams[i] + run.congeners_in_pot.back().grams[i] +
                       run.congeners_held.back().grams[i];
    EXPECT_NEAR(all / run.charge.congeners->grams[i], 1.0, 1e-8);
  }
}

TEST_P(InterruptedRun, GivesTheSpiritOfTheUninterruptedOneForMoreTimeAndHeat) {
  const still::Run one = running(day(GetParam()));
  const still::Run two = running(two_days(GetParam()));
  EXPECT_EQ(one.ending, two.ending);
  EXPECT_NEAR(two.last().collected / one.last().collected, 1.0, 1e-6);
  EXPECT_NEAR(two.last().cumulative / one.last().cumulative, 1.0, 1e-6);
  // What it takes more: the night, and what cooled has to be warmed again.
  const Gap night = gap(two);
  const double standing_s = (night.after.since_start - night.before.since_start).seconds();
  EXPECT_NEAR((two.last().since_start - one.last().since_start).seconds(), standing_s, 0.1);
  EXPECT_NEAR((two.last().drawn - one.last().drawn).joules(),
              (night.after.drawn - night.before.drawn).joules(), 200.0);
  EXPECT_NEAR((night.after.drawn - night.before.drawn).joules(),
              2000.0 * (night.after.since_start - fire_on).seconds(), 1.0);
}

TEST_P(InterruptedRun, IsReadWhileItCools) {
  const still::Run run = running(two_days(GetParam()));
  const Gap night = gap(run);
  Temperature last = night.before.pot_temperature;
  for (const double hours : {3.0, 4.0, 6.0, 9.0, 14.9}) {
    SCOPED_TRACE(hours);
    const auto seen = sight(run, Duration::hours(hours));
    ASSERT_TRUE(seen.pot);
    EXPECT_LT(*seen.pot, last);
    EXPECT_GT(*seen.pot, room);
    EXPECT_FALSE(seen.spout);
    EXPECT_NEAR(seen.collected / night.before.collected, 1.0, 1e-9);
    last = *seen.pot;
  }
  // The pot cools by Newton's law: its heat goes to the room alone. Half way in the logarithm
  // of what it is above the room, the rate is that of the loss over the heat capacity.
  const auto at = [&](double hours) {
    return (sight(run, Duration::hours(hours)).pot.value() - room).kelvins();
  };
  const double decay_per_h = std::log(at(4.0) / at(5.0));
  const double J_per_K =
      night.before.in_pot.moles() *
          vapour::liquid_heat_capacity(night.before.pot_ethanol,
                                       sight(run, Duration::hours(4.5)).pot.value())
              .joules_per_mole_kelvin() +
      4500.0;
  EXPECT_NEAR(decay_per_h / (6.0 * 3600.0 / J_per_K), 1.0, 0.002);
  // The next morning it warms again and the spout runs on.
  EXPECT_GT(sight(run, night.after.since_start - Duration::minutes(1.0)).pot.value(), last);
  EXPECT_TRUE(sight(run, night.after.since_start + Duration::minutes(5.0)).spout);
}

INSTANTIATE_TEST_SUITE_P(Heads, InterruptedRun, ::testing::Bool(), [](const auto& head) {
  return head.param ? "ByItsLoss" : "ByAFixedShare";
});

TEST(InterruptedRunWithHoldUp, KeepsWhatCoilAndParrotHoldOverNight) {
  RunSetting setting = two_days(true);
  setting.hold_up = {Volume::millilitres(80.0), Volume::millilitres(150.0)};
  const still::Run run = running(setting);
  const Gap night = gap(run);
  EXPECT_NEAR(night.after.held.ethanol / night.before.held.ethanol, 1.0, 1e-12);
  EXPECT_NEAR(night.after.spout / night.before.spout, 1.0, 1e-9);
  const Point& end = run.last();
  const spirit::Lot pot = in_pot(end);
  EXPECT_NEAR((end.distillate + end.held + pot).ethanol / run.charge.spirit.ethanol, 1.0, 1e-8);
}

}  // namespace
}  // namespace lynearm::still
