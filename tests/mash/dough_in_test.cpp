#include "mash/dough_in.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "mash/correction.hpp"
#include "mash/top_up.hpp"
#include "wort/gravity.hpp"

namespace lynearm::mash {
namespace {

using units::Energy;
using units::HeatCapacity;
using units::Mass;
using units::Share;
using units::Temperature;
using units::Volume;

RC_GTEST_PROP(DoughIn, at_the_computed_temperature_it_settles_at_the_rest, ()) {
  const double liquor_L = *rc::gen::inRange(20, 400);
  const Grist grist{Mass::kilograms(liquor_L / (0.1 * *rc::gen::inRange(22, 50))),
                    Share::percent(*rc::gen::inRange(2, 14)),
                    Temperature::celsius(*rc::gen::inRange(-5, 30))};
  MashVessel vessel;
  vessel.wall = HeatCapacity::kilojoules_per_kelvin(0.1 * *rc::gen::inRange(0, 50));
  vessel.wall_temperature = Temperature::celsius(*rc::gen::inRange(5, 30));
  vessel.warm = *rc::gen::arbitrary<bool>();
  vessel.lost = Energy::kilojoules(*rc::gen::inRange(0, 50));
  const Temperature rest = Temperature::celsius(*rc::gen::inRange(50, 72));
  Contents liquor = water(Volume::litres(liquor_L), Temperature::celsius(20.0));
  liquor.temperature = dough_in_temperature(liquor, grist, vessel, rest);
  RC_ASSERT(std::abs((dough_in(liquor, grist, vessel).temperature - rest).kelvins()) < 1e-9);
}

TEST(DoughIn, a_cold_vessel_wants_hotter_liquor) {
  const Grist grist{Mass::kilograms(5.0), Share::percent(5.0), Temperature::celsius(18.0)};
  const Contents liquor = water(Volume::litres(15.0), Temperature::celsius(20.0));
  MashVessel vessel;
  vessel.wall = HeatCapacity::kilojoules_per_kelvin(3.0);
  vessel.wall_temperature = Temperature::celsius(18.0);
  const Temperature rest = Temperature::celsius(65.0);
  const Temperature warm = dough_in_temperature(liquor, grist, vessel, rest);
  vessel.warm = false;
  EXPECT_GT(dough_in_temperature(liquor, grist, vessel, rest), warm);
}

TEST(DoughIn, too_little_liquor_is_refused) {
  const Grist grist{Mass::kilograms(10.0), Share::percent(5.0), Temperature::celsius(5.0)};
  EXPECT_THROW(
      (void)dough_in_temperature(water(Volume::litres(4.0), Temperature::celsius(20.0)), grist,
                                 {}, Temperature::celsius(66.0)),
      base::InputError);
}

Contents mash_at(double t_C) {
  Contents mash;
  mash.water = Mass::kilograms(20.0);
  mash.grain = Mass::kilograms(10.0);
  mash.moisture = Share::percent(9.0);
  mash.temperature = Temperature::celsius(t_C);
  return mash;
}

constexpr HeatCapacity wall = HeatCapacity::kilojoules_per_kelvin(3.0);
constexpr Waters waters{Temperature::celsius(15.0), Temperature::celsius(95.0)};

RC_GTEST_PROP(Correction, the_whole_amount_lands_on_the_target, ()) {
  const double measured = 0.1 * *rc::gen::inRange(580, 740);
  const Temperature target = Temperature::celsius(65.5);
  RC_PRE(std::abs(measured - 65.5) > 0.25);
  const Correction mend =
      correct(mash_at(measured), wall, target, waters, Volume::litres(200.0));
  RC_ASSERT(mend.with == (measured > 65.5 ? Mend::cold_water : Mend::hot_water));
  RC_ASSERT(!mend.room_is_short);
  RC_ASSERT(std::abs((mend.reached - target).kelvins()) < 1e-9);
  RC_ASSERT(std::abs(mend.first_half / mend.wanted - 0.5) < 1e-9);
  // The first half goes a little over half the way, and never past the target.
  RC_ASSERT(std::abs((mend.after_first - target).kelvins()) <
            0.5 * std::abs(measured - 65.5) + 1e-9);
}

TEST(Correction, near_enough_is_left_alone) {
  const Correction mend =
      correct(mash_at(65.6), wall, Temperature::celsius(65.5), waters, Volume::litres(40.0));
  EXPECT_EQ(mend.with, Mend::nothing);
  EXPECT_EQ(mend.wanted, Volume());
  EXPECT_EQ(mend.reached, Temperature::celsius(65.6));
}

TEST(Correction, a_full_vessel_is_filled_to_the_brim_and_says_how_far_that_gets) {
  const Contents mash = mash_at(60.0);
  const Volume brim = volume(mash) + Volume::litres(1.0);
  const Correction mend = correct(mash, wall, Temperature::celsius(66.0), waters, brim);
  EXPECT_TRUE(mend.room_is_short);
  EXPECT_LT(mend.at_most, mend.wanted);
  EXPECT_GT(mend.reached, mash.temperature);
  EXPECT_LT(mend.reached, Temperature::celsius(66.0));
  Contents after = mash;
  after.water += water(mend.at_most, waters.hot).water;
  after.temperature = mend.reached;
  EXPECT_NEAR(volume(after).litres(), brim.litres(), 1e-9);
  const Correction none = correct(mash, wall, Temperature::celsius(66.0), waters, volume(mash));
  EXPECT_EQ(none.at_most, Volume());
  EXPECT_EQ(none.reached, mash.temperature);
}

TEST(Correction, water_on_the_wrong_side_is_refused) {
  EXPECT_THROW((void)correct(mash_at(60.0), wall, Temperature::celsius(66.0),
                             {Temperature::celsius(15.0), Temperature::celsius(60.0)},
                             Volume::litres(40.0)),
               base::InputError);
}

RC_GTEST_PROP(TopUp, volume_and_temperature_are_met_at_once_when_in_reach, ()) {
  Contents wort;
  wort.water = Mass::kilograms(*rc::gen::inRange(15, 40));
  wort.sugar = Mass::kilograms(*rc::gen::inRange(0, 8));
  wort.temperature = Temperature::celsius(*rc::gen::inRange(10, 80));
  const Volume wanted = volume(wort) + Volume::litres(0.1 * *rc::gen::inRange(20, 400));
  const Temperature t = Temperature::celsius(*rc::gen::inRange(18, 40));
  const TopUp result = top_up(wort, wall, waters, wanted, t);
  // Filled to the mark in every case; what is out of reach is the temperature.
  RC_ASSERT(result.cold >= Volume());
  RC_ASSERT(result.hot >= Volume());
  RC_ASSERT(std::abs((result.volume - wanted).litres()) < 1e-7);
  switch (result.reach) {
    case Reach::reached:
      RC_ASSERT(std::abs((result.temperature - t).kelvins()) < 1e-7);
      break;
    case Reach::stays_too_hot:
      RC_ASSERT(result.temperature > t);
      RC_ASSERT(result.hot == Volume());
      break;
    case Reach::stays_too_cold:
      RC_ASSERT(result.temperature < t);
      RC_ASSERT(result.cold == Volume());
      break;
    case Reach::already_fuller:
      RC_FAIL("it was not full");
  }
}

TEST(TopUp, a_vessel_already_fuller_is_left_alone) {
  const Contents full = water(Volume::litres(30.0), Temperature::celsius(40.0));
  const TopUp result =
      top_up(full, wall, waters, Volume::litres(25.0), Temperature::celsius(28.0));
  EXPECT_EQ(result.reach, Reach::already_fuller);
  EXPECT_EQ(result.cold + result.hot, Volume());
}

TEST(TopUp, a_small_room_left_cannot_cool_a_hot_wort) {
  const Contents wort = water(Volume::litres(20.0), Temperature::celsius(70.0));
  const TopUp result =
      top_up(wort, wall, waters, Volume::litres(22.0), Temperature::celsius(28.0));
  EXPECT_EQ(result.reach, Reach::stays_too_hot);
  EXPECT_GT(result.temperature, Temperature::celsius(60.0));
}

TEST(TopUp, waters_of_one_temperature_are_refused) {
  EXPECT_THROW((void)top_up(water(Volume::litres(20.0), Temperature::celsius(70.0)), wall,
                            {Temperature::celsius(15.0), Temperature::celsius(15.0)},
                            Volume::litres(25.0), Temperature::celsius(28.0)),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::mash
