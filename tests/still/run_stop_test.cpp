// How a run ends, what it refuses, and its clock.
#include <gtest/gtest.h>

#include <functional>
#include <string>

#include "base/error.hpp"
#include "still/run.hpp"
#include "still/runs.hpp"

namespace lynearm::still {
namespace {

using units::MoleFraction;
using units::Power;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

std::string refused_field(const std::function<void()>& action) {
  try {
    action();
  } catch (const base::InputError& error) {
    return error.faults().front().field;
  }
  return "nothing was refused";
}

TEST(Stop, IsTheFirstReached) {
  Stop stop = spout_at(10.0);
  stop.collected = Volume::litres(5.0);
  const still::Run by_volume =
      distil(charge_of(100.0, 8.0), setting_with(0.0), at_one_atmosphere(), stop);
  EXPECT_EQ(by_volume.ending, Ending::collected);
  EXPECT_NEAR(by_volume.last().collected.litres(), 5.0, 1e-9);

  stop.head_temperature = Temperature::celsius(94.5);
  const still::Run by_head =
      distil(charge_of(100.0, 8.0), setting_with(0.0), at_one_atmosphere(), stop);
  EXPECT_EQ(by_head.ending, Ending::head_temperature);
  EXPECT_NEAR(by_head.last().head_temperature.celsius(), 94.5, 1e-8);

  stop.least_in_pot = Volume::litres(103.0);
  const still::Run by_pot =
      distil(charge_of(100.0, 8.0), setting_with(0.0), at_one_atmosphere(), stop);
  EXPECT_EQ(by_pot.ending, Ending::least_in_pot);
  EXPECT_NEAR(hot_volume(by_pot.left(), by_pot.last().pot_temperature).litres(), 103.0, 1e-6);
}

TEST(Stop, OfTwoInOneStepIsTheEarlier) {
  const still::Run by_strength = run_of(100.0, 8.0, 0.0, 30.0);
  Stop both = spout_at(30.0);
  both.collected = by_strength.last().collected * (1.0 - 1e-6);
  const still::Run run =
      distil(charge_of(100.0, 8.0), setting_with(0.0), at_one_atmosphere(), both);
  EXPECT_EQ(run.ending, Ending::collected);
}

TEST(Stop, ThatIsPastFromTheStartIsRefused) {
  const auto run_with = [](Stop stop) {
    return [stop] {
      (void)distil(charge_of(100.0, 8.0), setting_with(0.0), at_one_atmosphere(), stop);
    };
  };
  EXPECT_EQ(refused_field(run_with({})), "run.stop");
  EXPECT_EQ(refused_field(run_with(spout_at(55.0))), "run.stop.spout_strength");
  Stop stop;
  stop.head_temperature = Temperature::celsius(90.0);
  EXPECT_EQ(refused_field(run_with(stop)), "run.stop.head_temperature");
  stop = {};
  stop.collected = Volume::litres(0.0);
  EXPECT_EQ(refused_field(run_with(stop)), "run.stop.collected");
  stop = {};
  stop.least_in_pot = Volume::litres(120.0);
  EXPECT_EQ(refused_field(run_with(stop)), "run.stop.least_in_pot");
}

TEST(Stop, ThatNeverComesLetsThePotBoilDry) {
  Stop stop;
  stop.collected = Volume::litres(200.0);
  const still::Run run =
      distil(charge_of(100.0, 40.0), setting_with(0.0), at_one_atmosphere(), stop);
  EXPECT_EQ(run.ending, Ending::pot_dry);
  EXPECT_GT(run.recovered().percent(), 99.99);
}

TEST(Distil, RefusesWaterAndNothing) {
  const auto run_of_charge = [](const Charge& charge) {
    return [charge] {
      (void)distil(charge, setting_with(0.0), at_one_atmosphere(), spout_at(1.0));
    };
  };
  EXPECT_EQ(refused_field(run_of_charge({})), "charge.spirit");
  EXPECT_EQ(refused_field(run_of_charge(charge_of(100.0, 0.0))), "charge.spirit");
  Charge negative = charge_of(100.0, 10.0);
  negative.spirit.water = units::Mass::kilograms(-1.0);
  EXPECT_EQ(refused_field(run_of_charge(negative)), "charge.spirit");
}

TEST(Distil, RefusesARefluxThatIsNone) {
  for (const double percent : {-1.0, 91.0}) {
    EXPECT_EQ(refused_field([percent] { (void)run_of(100.0, 8.0, percent, 1.0); }),
              "run.head_reflux");
  }
}

TEST(Distil, AtTheAzeotropeChangesNothing) {
  const auto& curve = at_one_atmosphere();
  Charge charge;
  charge.spirit = lot(
      Moles{vapour::AmountOfSubstance::moles(1000.0 * curve.azeotrope().fraction()),
            vapour::AmountOfSubstance::moles(1000.0 * (1.0 - curve.azeotrope().fraction()))});
  Stop stop;
  stop.least_in_pot = Volume::litres(5.0);
  const still::Run run = distil(charge, setting_with(20.0), curve, stop);
  EXPECT_NEAR(run.last().spout.percent(), run.first().spout.percent(), 1e-5);
  EXPECT_NEAR(run.last().pot.percent(), run.first().pot.percent(), 1e-5);
}

TEST(Distil, AboveTheAzeotropeMakesThePotStronger) {
  Stop stop;
  stop.least_in_pot = Volume::litres(5.0);
  const still::Run run =
      distil(charge_of(100.0, 98.5), setting_with(0.0), at_one_atmosphere(), stop);
  EXPECT_GT(run.last().pot, run.first().pot);
  EXPECT_LT(run.first().spout, run.first().pot);
  const still::Run pure =
      distil(charge_of(100.0, 100.0), setting_with(10.0), at_one_atmosphere(), stop);
  EXPECT_EQ(pure.last().cumulative.percent(), 100.0);
}

TEST(Clock, AtConstantNetPowerIsHeatOverPower) {
  const still::Run run = run_of(100.0, 28.0, 5.0, 10.0);
  EXPECT_NEAR(run.last().since_boiling.seconds(), run.last().into_pot.joules() / 3000.0, 1e-6);
  EXPECT_NEAR(run.last().drawn / run.last().into_pot, 1.0, 1e-12);
}

TEST(Clock, SlowsWhereThePowerIsTurnedDown) {
  RunSetting setting = setting_with(5.0);
  setting.power_steps = {{Volume::litres(2.0), Power::kilowatts(1.0)},
                         {Volume::litres(20.0), Power::kilowatts(2.0)}};
  const still::Run run =
      distil(charge_of(100.0, 28.0), setting, at_one_atmosphere(), spout_at(10.0));
  const Point two = point_at_volume(run, Volume::litres(2.0));
  const Point twenty = point_at_volume(run, Volume::litres(20.0));
  // Each stretch at its own power. The change falls within an interval between two points,
  // where time runs straight: worth some 0.3 % of these stretches.
  const double slow_s = (twenty.into_pot - two.into_pot).joules() / 1000.0;
  EXPECT_NEAR((twenty.since_boiling - two.since_boiling).seconds() / slow_s, 1.0, 0.03);
  const double expected_s = two.into_pot.joules() / 3000.0 + slow_s +
                            (run.last().into_pot - twenty.into_pot).joules() / 2000.0;
  EXPECT_NEAR(run.last().since_boiling.seconds() / expected_s, 1.0, 1e-3);
  EXPECT_NEAR(run.last().drawn / run.last().into_pot, 1.0, 1e-12);
}

TEST(Clock, RefusesAPowerThatTheLossEatsUp) {
  RunSetting setting = setting_with(0.0);
  setting.heating.loss = units::HeatLoss::watts_per_kelvin(50.0);
  EXPECT_EQ(refused_field([&] {
              (void)distil(charge_of(100.0, 8.0), setting, at_one_atmosphere(), spout_at(1.0));
            }),
            "run.heating.power");
  setting = setting_with(0.0);
  setting.power_steps = {{Volume::litres(5.0), Power::kilowatts(1.0)},
                         {Volume::litres(4.0), Power::kilowatts(1.0)}};
  EXPECT_EQ(refused_field([&] {
              (void)distil(charge_of(100.0, 8.0), setting, at_one_atmosphere(), spout_at(1.0));
            }),
            "run.power_steps");
}

TEST(Moments, AreFoundOrSaidToBeMissing) {
  const still::Run run = run_of(100.0, 28.0, 5.0, 20.0);
  EXPECT_NEAR(when_spout_falls_to(run, VolumeStrength::percent(65.0))->spout.percent(), 65.0,
              1e-9);
  EXPECT_NEAR(when_head_rises_to(run, Temperature::celsius(90.0))->head_temperature.celsius(),
              90.0, 1e-8);
  EXPECT_NEAR(when_pot_falls_to(run, VolumeStrength::percent(10.0))->pot.percent(), 10.0, 1e-9);
  EXPECT_FALSE(when_spout_falls_to(run, VolumeStrength::percent(19.0)).has_value());
  EXPECT_FALSE(when_spout_falls_to(run, VolumeStrength::percent(90.0)).has_value());
  EXPECT_FALSE(when_head_rises_to(run, Temperature::celsius(99.9)).has_value());
  EXPECT_EQ(refused_field([&] { (void)point_at_volume(run, Volume::litres(-0.1)); }),
            "collected");
  EXPECT_EQ(refused_field([&] { (void)point_at_volume(run, Volume::litres(99.0)); }),
            "collected");
  EXPECT_EQ(point_at_volume(run, Volume::litres(0.0)).spout, run.first().spout);
  EXPECT_EQ(point_at_volume(run, run.last().collected).spout, run.last().spout);
}

}  // namespace
}  // namespace lynearm::still
