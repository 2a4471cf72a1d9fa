// The gas of a ferment as pitched. A page told the plan's figures also where ten times as much
// was pitched, and after the wash was racked: carbon dioxide can kill.
#include "station/gas_pitched.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "ferment/yield.hpp"
#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "station/demonstration.hpp"

namespace lynearm::station {
namespace {

using namespace journal;
using plan::GasStanding;

constexpr double day = 1440.0;

class GasPitchedTest : public testing::Test {
 protected:
  GasPitchedTest()
      : made(planned.of(demo_example("Tern 8").recipe, demo_example("Tern 8").kit, 0)) {}
  /// So many times the plan's volume, at its gravity, with the plan's yeast to a litre.
  void pitch(double times, double yeast_times = 1.0) {
    const plan::WortPlan& wort = made->plan.mash.wort;
    book.tell(0, Pitched{{wort.volume * times, at_20C},
                         gravity_at_20C(made->plan.ferment.original_gravity.ratio()),
                         "distillers-dry",
                         made->plan.ferment.yeast * (times * yeast_times)});
  }
  void read(double days, double gravity) {
    book.tell(days * day, FermentRead{gravity_at_20C(gravity), {}});
  }
  void put_in(double days, Added what) {
    book.tell(days * day, std::move(what), Stage::ferment);
  }
  void rack(double days) { book.tell(days * day, Racked{litres_at_20C(100), {}}); }
  plan::GasPitched told() {
    house = fold(book.entries);
    return gas_pitched(*made, house.batches.at(*book.batch)).value();
  }

  Planned planned{numeric::one_after_another()};
  std::shared_ptr<const PlanMade> made;
  Book book;
  HouseState house;
};

TEST_F(GasPitchedTest, BeforeThePitchThereIsNone) {
  book.tell(0, BatchBegun{"Tern 9", "", true});
  house = fold(book.entries);
  EXPECT_FALSE(gas_pitched(*made, house.batches.at(*book.batch)));
}

TEST_F(GasPitchedTest, PitchedAsPlannedItIsThePlans) {
  pitch(1.0);
  const plan::FermentPlan& ferment = made->plan.ferment;
  const plan::GasPitched gas = told();
  const double mass_kg = ferment.fermented.carbon_dioxide.kilograms();
  EXPECT_NEAR(gas.gas.mass.kilograms(), mass_kg, 1e-4 * mass_kg);
  ASSERT_TRUE(gas.gas.peak && gas.gas.peak->room && ferment.room_at_peak);
  const double rate_L_per_h = ferment.peak_carbon_dioxide.litres_per_hour();
  EXPECT_NEAR(gas.gas.peak->rate.litres_per_hour(), rate_L_per_h, 1e-3 * rate_L_per_h);
  EXPECT_NEAR(gas.gas.peak->room->fraction(), ferment.room_at_peak->fraction(), 1e-5);
  EXPECT_EQ(gas.standing, GasStanding::gives);
  EXPECT_EQ(gas.room, made->pair.kit.place.ferment_room);
}

TEST_F(GasPitchedTest, TenTimesAsMuchGivesTenTimesTheGasInTheSameRoom) {
  pitch(10.0);
  const plan::FermentPlan& ferment = made->plan.ferment;
  const plan::GasPitched gas = told();
  const double mass_kg = ferment.fermented.carbon_dioxide.kilograms();
  EXPECT_NEAR(gas.gas.mass.kilograms(), 10.0 * mass_kg, 1e-3 * mass_kg);
  ASSERT_TRUE(gas.gas.peak && gas.gas.peak->room);
  // Ten times the rate at least: the more there is, the less its vessel cools it.
  const double rate_L_per_h = gas.gas.peak->rate.litres_per_hour();
  EXPECT_GT(rate_L_per_h, 9.9 * ferment.peak_carbon_dioxide.litres_per_hour());
  EXPECT_LT(rate_L_per_h, 30.0 * ferment.peak_carbon_dioxide.litres_per_hour());
  // By hand: Q = G (1 - 0.005)/(0.005 - 0.0004), and (G + Q' 0.0004)/(G + Q') of the room's own
  // air Q'.
  EXPECT_NEAR(gas.gas.peak->fresh_air.litres_per_hour(), rate_L_per_h * 0.995 / 0.0046,
              1e-6 * rate_L_per_h * 0.995 / 0.0046);
  const plan::Place& place = made->pair.kit.place;
  const double air_L_per_h = place.ferment_room->litres() * place.air_changes_per_hour;
  EXPECT_NEAR(gas.gas.peak->room->fraction(),
              (rate_L_per_h + 0.0004 * air_L_per_h) / (rate_L_per_h + air_L_per_h), 1e-9);
}

TEST_F(GasPitchedTest, WhatIsFedCountsForSugarButBacksetDoesNot) {
  pitch(1.0);
  const plan::GasPitched bare = told();
  put_in(1, Added{"sugar", units::Mass::kilograms(3), {}});
  put_in(1.1, Added{"honey", {}, units::Volume::litres(1)});
  put_in(1.2, Added{"backset", {}, units::Volume::litres(10)});
  const plan::GasPitched fed = told();
  EXPECT_NEAR(fed.fed.kilograms(), 4.2, 1e-9);
  // By hand, as sucrose: 1.0526 of hexose, 0.4886 of it gas, as much of theory as the kit's
  // yeast reaches.
  const double more_kg =
      4.2 * 1.0526 * 0.4886 * made->pair.kit.constants.alcohol_yield.median.fraction();
  EXPECT_NEAR((fed.gas.mass - bare.gas.mass).kilograms(), more_kg, 1e-3 * more_kg);
  ASSERT_TRUE(fed.gas.peak && bare.gas.peak);
  EXPECT_GE(fed.gas.peak->rate, bare.gas.peak->rate);
}

TEST_F(GasPitchedTest, WhatWentInBeforeThePitchIsInItsGravity) {
  book.tell(-10, Added{"sugar", units::Mass::kilograms(3), {}}, Stage::ferment);
  pitch(1.0);
  EXPECT_EQ(told().fed, units::Mass{});
}

TEST_F(GasPitchedTest, RackedWashStandsByTwoAlikeGravities) {
  pitch(1.0);
  const double dry = made->plan.ferment.final_gravity.ratio();
  read(3, dry + 0.0020);
  read(4.2, dry + 0.0024);
  EXPECT_EQ(told().standing, GasStanding::gives);
  rack(5);
  EXPECT_EQ(told().standing, GasStanding::stands);
}

// It has not begun, or is stuck: either may go on.
TEST_F(GasPitchedTest, AlikeFarAboveWhereItsSugarIsGoneItIsNotSaidToStand) {
  pitch(1.0);
  read(3, 1.0300);
  read(4.2, 1.0292);
  rack(5);
  EXPECT_EQ(told().standing, GasStanding::racked);
}

TEST_F(GasPitchedTest, RackedWashStandsByTwoGravitiesNearWhereItsSugarIsGone) {
  pitch(1.0);
  const double dry = made->plan.ferment.final_gravity.ratio();
  read(3, 1.0200);
  read(4, dry + 0.0025);
  rack(5);
  EXPECT_EQ(told().standing, GasStanding::racked) << "one reading is a slip as well";
  read(5.2, dry + 0.0010);
  EXPECT_EQ(told().standing, GasStanding::stands) << "read again when it was clear";
}

TEST_F(GasPitchedTest, RackedWhileItFermentsItIsNotSaidToStand) {
  pitch(1.0);
  read(2, 1.0300);
  read(3, 1.0150);
  rack(4);
  EXPECT_EQ(told().standing, GasStanding::racked);
}

TEST_F(GasPitchedTest, FedSinceItStoodItIsNotSaidToStand) {
  pitch(1.0);
  read(5, 0.9960);
  read(6, 0.9960);
  put_in(6.5, Added{"sugar", units::Mass::kilograms(3), {}});
  rack(7);
  EXPECT_EQ(told().standing, GasStanding::racked);
}

TEST_F(GasPitchedTest, NeverReadItIsNotSaidToStand) {
  pitch(1.0);
  rack(9);
  EXPECT_EQ(told().standing, GasStanding::racked);
}

TEST_F(GasPitchedTest, APitchOfHardlyAnyYeastHasAPaceToo) {
  pitch(1.0, 1e-4);
  const plan::GasPitched gas = told();
  ASSERT_TRUE(gas.gas.peak);
  EXPECT_GT(gas.gas.peak->rate, units::VolumeFlow{});
  EXPECT_EQ(gas.no_pace, "");
}

TEST_F(GasPitchedTest, WherePaceCannotBeReckonedItsMassIsToldAndWhy) {
  pitch(1.0);
  put_in(1, Added{"sugar", units::Mass::kilograms(60), {}});
  const plan::GasPitched gas = told();
  EXPECT_FALSE(gas.gas.peak);
  EXPECT_THAT(gas.no_pace, testing::Not(testing::IsEmpty()));
  // No less than the wort's own and the sugar's.
  EXPECT_GT(gas.gas.mass.kilograms(),
            made->plan.ferment.fermented.carbon_dioxide.kilograms() + 60.0 * 0.45);
}

}  // namespace
}  // namespace lynearm::station
