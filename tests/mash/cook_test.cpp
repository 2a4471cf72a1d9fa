#include "mash/cook.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "mash/landing.hpp"

namespace lynearm::mash {
namespace {

using units::Duration;
using units::HeatCapacity;
using units::HeatLoss;
using units::Mass;
using units::Power;
using units::Share;
using units::Temperature;
using units::Volume;
using units::VolumeFlow;

CookPot pot() {
  CookPot p;
  p.brim = Volume::litres(40.0);
  p.wall = HeatCapacity::kilojoules_per_kelvin(2.0);
  p.power = Power::kilowatts(3.0);
  p.loss = HeatLoss::watts_per_kelvin(5.0);
  p.ambient = Temperature::celsius(18.0);
  return p;
}

CookSteps steps() {
  CookSteps s;
  s.grain = Mass::kilograms(5.0);
  s.moisture = Share::percent(13.0);
  s.grain_temperature = Temperature::celsius(18.0);
  s.water = Volume::litres(20.0);
  s.water_temperature = Temperature::celsius(15.0);
  s.simmer = Duration::minutes(60.0);
  s.boil_off = VolumeFlow::litres_per_hour(2.0);
  return s;
}

TEST(Cook, what_boils_away_is_missing_from_the_water_and_nowhere_else) {
  const Cooked cooked = cook(pot(), steps());
  const Mass given = water(Volume::litres(20.0), Temperature::celsius(15.0)).water;
  EXPECT_NEAR((given - cooked.contents.water).kilograms(), 2.0 * 0.99820123, 1e-9);
  EXPECT_EQ(cooked.contents.grain, Mass::kilograms(5.0));
  EXPECT_NEAR(cooked.boiled_away.litres(), 2.0, 1e-12);
}

TEST(Cook, headspace_and_volume_make_the_brim) {
  const Cooked cooked = cook(pot(), steps());
  EXPECT_NEAR((cooked.headspace + cooked.at_the_boil).litres(), 40.0, 1e-12);
  EXPECT_GT(cooked.at_the_boil, Volume::litres(23.0));  // hot water swells by 4 %
}

TEST(Cook, boiling_at_full_power_is_the_power_that_is_left) {
  const VolumeFlow rate = boil_off_rate(pot());
  EXPECT_NEAR(rate.litres_per_hour(), (3000 * 0.85 - 5 * 82) * 3600 / 2.257e6 / 0.99820, 1e-3);
}

TEST(Cook, more_time_opens_more_starch_and_meal_opens_faster) {
  CookSteps s = steps();
  s.simmer = Duration::minutes(30.0);
  const double half = cook(pot(), s).opened.fraction();
  s.simmer = Duration::minutes(60.0);
  const double hour = cook(pot(), s).opened.fraction();
  s.grind = Grind::meal;
  const double meal = cook(pot(), s).opened.fraction();
  EXPECT_LT(half, hour);
  EXPECT_LT(hour, meal);
  // Common practice, no source: half an hour does most of it, an hour does it.
  EXPECT_GT(half, 0.8);
  EXPECT_GT(hour, 0.97);
}

TEST(Cook, a_stiff_porridge_is_noticed) {
  CookSteps s = steps();
  s.water = Volume::litres(6.0);
  EXPECT_TRUE(cook(pot(), s).too_thick);
  EXPECT_FALSE(cook(pot(), steps()).too_thick);
}

TEST(Cook, what_cannot_be_is_refused) {
  CookSteps dry = steps();
  dry.simmer = Duration::hours(12.0);
  EXPECT_THROW((void)cook(pot(), dry), base::InputError);
  CookPot weak = pot();
  weak.power = Power::watts(300.0);
  EXPECT_THROW((void)cook(weak, steps()), base::InputError);
  EXPECT_THROW((void)boil_off_rate(weak), base::InputError);
}

TEST(Landing, mass_is_kept_left_behind_or_steamed_away) {
  const Contents cooked = cook(pot(), steps()).contents;
  Pour pour;
  pour.vessel_wall = HeatCapacity::kilojoules_per_kelvin(3.0);
  pour.vessel_temperature = Temperature::celsius(18.0);
  pour.in_vessel = water(Volume::litres(3.0), Temperature::celsius(60.0));
  pour.left_behind = Share::percent(2.0);
  pour.taking = Duration::minutes(6.0);
  pour.steaming = open_surface(Volume::litres(25.0));
  pour.ambient = Temperature::celsius(18.0);
  const Landed landed = land(cooked, pour);
  EXPECT_NEAR((landed.contents.mass() + landed.left_behind + landed.steamed_away).kilograms(),
              (cooked.mass() + pour.in_vessel.mass()).kilograms(), 1e-9);
  EXPECT_LT(landed.contents.temperature, Temperature::celsius(95.0));
}

TEST(Landing, an_instant_pour_into_a_warm_empty_vessel_changes_nothing) {
  const Contents cooked = cook(pot(), steps()).contents;
  Pour pour;
  pour.vessel_wall = HeatCapacity::kilojoules_per_kelvin(3.0);
  pour.vessel_temperature = Temperature::celsius(100.0);
  pour.ambient = Temperature::celsius(18.0);
  EXPECT_NEAR(land(cooked, pour).contents.temperature.celsius(), 100.0, 1e-9);
}

}  // namespace
}  // namespace lynearm::mash
