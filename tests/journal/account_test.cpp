#include "journal/account.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "journal/book.hpp"
#include "journal/fold.hpp"

namespace lynearm::journal {
namespace {

class AccountTest : public testing::Test {
 protected:
  Book book;
  Id run;
  void SetUp() override {
    RunBegun begun;
    begun.charge = litres_at_20C(20);
    begun.strength = percent_at_20C(27);
    run = book.tell(1, begun);
  }
  void gauge(int jar, double litres, double percent) {
    book.tell(10 + jar, JarGauged{run, jar, litres_at_20C(litres), percent_at_20C(percent)});
  }
  BatchAccount told() {
    const HouseState house = fold(book.entries);
    return account(house, house.batches.at(*book.batch));
  }
};

TEST_F(AccountTest, ARunIsItsChargeLessItsJars) {
  gauge(1, 5, 70);
  gauge(2, 4, 45);
  const BatchAccount account = told();
  ASSERT_EQ(account.steps.size(), 1U);
  const AccountStep& step = account.steps[0];
  EXPECT_EQ(step.what, "spirit run");
  EXPECT_EQ(step.stage, Stage::spirit_run);
  EXPECT_NEAR(step.in.value.litres(), 5.4, 1e-9);
  EXPECT_NEAR(step.out.value.litres(), 5.3, 1e-9);
  EXPECT_NEAR(step.unaccounted.value.litres(), 0.1, 1e-9);
  // By hand: 1 % of 5.4 L and 0.3 % of 20 L; of the jars 0.035, 0.015, 0.018, 0.012.
  const double in_L = std::hypot(0.054, 0.06);
  // The pot, which nobody measured, may keep 2 % of it.
  const double out_L =
      std::hypot(std::hypot(0.035, 0.015), std::hypot(0.018, 0.012), 5.4 * 0.02);
  EXPECT_NEAR(step.unaccounted.sd.litres(), std::hypot(in_L, out_L), 1e-9);
  EXPECT_FALSE(step.telling);
}

TEST_F(AccountTest, ItsBandsAreThoseOfTheKitsOwnGlass) {
  gauge(1, 5, 70);
  gauge(2, 4, 45);
  plan::Instruments kit;
  kit.alcoholmeter = units::VolumeStrength::percent(1.0);  // four times in five
  kit.thermometer = {};
  const HouseState house = fold(book.entries);
  const BatchAccount told = account(house, house.batches.at(*book.batch), glass_of(kit));
  EXPECT_TRUE(told.glass.known());
  const AccountStep& step = told.steps.at(0);
  // By hand: V s, with 1 % of V and 1.0/1.2816 %vol of s, independent.
  constexpr double s = 0.010 / 1.2815515655446004;
  const double in_L = std::hypot(0.01 * 5.4, 20 * s);
  const double one = std::hypot(0.01 * 3.5, 5 * s);
  const double two = std::hypot(0.01 * 1.8, 4 * s);
  EXPECT_NEAR(step.in.sd.litres(), in_L, 1e-9);
  EXPECT_NEAR(step.unaccounted.sd.litres(), std::hypot(in_L, std::hypot(one, two, 5.4 * 0.02)),
              1e-9);
}

TEST_F(AccountTest, AGapThatABetterGlassTellsIsTold) {
  gauge(1, 5, 70);
  gauge(2, 4, 38);
  book.tell(90, RunEnded{run, {}, {}, units::Volume::litres(11), percent_at_20C(0.2)});
  const HouseState house = fold(book.entries);
  const auto with = [&](plan::AlcoholmeterClass of) {
    plan::Instruments kit;
    kit.alcoholmeter_class = of;
    kit.alcoholmeter = units::VolumeStrength::percent(3.0);
    return account(house, house.batches.at(*book.batch), glass_of(kit)).steps.at(0);
  };
  EXPECT_TRUE(with(plan::AlcoholmeterClass::one).telling);
  EXPECT_FALSE(with(plan::AlcoholmeterClass::uncertified).telling);
}

TEST_F(AccountTest, WhatIsLeftInThePotHasAName) {
  gauge(1, 5, 70);
  gauge(2, 4, 40);
  book.tell(90, RunEnded{run, {}, {}, units::Volume::litres(11), percent_at_20C(1)});
  const BatchAccount account = told();
  ASSERT_EQ(account.steps.at(0).named.size(), 1U);
  EXPECT_EQ(account.steps[0].named[0].first, "left in the pot");
  EXPECT_NEAR(account.steps[0].named[0].second.value.litres(), 0.11, 1e-9);
  EXPECT_NEAR(account.steps[0].unaccounted.value.litres(), 5.4 - 5.1 - 0.11, 1e-9);
}

TEST_F(AccountTest, APlantedGapIsTold) {
  gauge(1, 5, 70);
  gauge(2, 3, 45);
  const BatchAccount account = told();
  ASSERT_EQ(account.steps.size(), 1U);
  EXPECT_NEAR(account.steps[0].unaccounted.value.litres(), 0.55, 1e-9);
  EXPECT_TRUE(account.steps[0].telling);
}

TEST_F(AccountTest, ALotIsAsSurelyKnownAsItsPartsWhateverWaterWentIn) {
  const auto made = [this](double water_kg) {
    book.entries.clear();
    const Id hearts = book.tell(
        1, LotBrought{"old hearts", LotKind::hearts, litres_at_20C(4), percent_at_20C(68)});
    LotMade body{"reduced",
                 {{{hearts, LotKind::hearts}, units::Volume::litres(4)}},
                 units::Mass::kilograms(water_kg),
                 {},
                 {}};
    body.volume = litres_at_20C(5);
    body.strength = percent_at_20C(64);
    book.tell(5, body);
    return told();
  };
  const BatchAccount little = made(1.0);
  const BatchAccount much = made(127.0);
  ASSERT_EQ(much.steps.size(), 1U);
  EXPECT_NEAR(much.steps[0].unaccounted.value.litres(), -0.48, 0.001);
  // 1 % and 0.3 %vol of each of the two, by hand: 0.0297 and 0.0353 L.
  EXPECT_NEAR(much.steps[0].unaccounted.sd.litres(), 0.0462, 0.0005);
  EXPECT_DOUBLE_EQ(much.steps[0].unaccounted.sd.litres(),
                   little.steps[0].unaccounted.sd.litres());
  EXPECT_TRUE(much.steps[0].telling);
}

TEST_F(AccountTest, JarsThatAreNotAllGaugedTellNothing) {
  gauge(1, 5, 70);
  book.tell(40, JarFilled{run, 2, {}});
  EXPECT_TRUE(told().steps.empty());
}

TEST_F(AccountTest, RunsOfOneKindAreNumbered) {
  gauge(1, 9, 58);
  run = book.tell(100, [] {
    RunBegun begun;
    begun.charge = litres_at_20C(20);
    begun.strength = percent_at_20C(27);
    return begun;
  }());
  gauge(1, 9, 58);
  const BatchAccount account = told();
  ASSERT_EQ(account.steps.size(), 2U);
  EXPECT_EQ(account.steps[0].what, "spirit run 1 of 2");
  EXPECT_EQ(account.steps[1].what, "spirit run 2 of 2");
}

// Strips took in less than the ferment gave, and no line said where the rest was.
TEST(WashOnItsWay, WaitsInItsVesselOrIsInAStillUntilItIsMeasured) {
  Book book;
  book.tell(0, Pitched{litres_at_20C(38), gravity_at_20C(1.060), "distillers-dry",
                       units::Mass::grams(20)});
  book.tell(10000, FermentRead{gravity_at_20C(0.996), {}});
  book.tell(10010, Racked{litres_at_20C(36), {}});
  const auto told = [&] {
    const HouseState house = fold(book.entries);
    return account(house, house.batches.at(*book.batch));
  };
  const auto strip = [&](double minutes) {
    RunBegun begun;
    begun.kind = RunKind::strip;
    begun.charge = litres_at_20C(12);
    begun.wash = units::Volume::litres(12);
    return book.tell(minutes, begun);
  };
  BatchAccount now = told();
  EXPECT_NEAR(now.waiting.volume.litres(), 36.0, 1e-9);
  EXPECT_EQ(now.in_stills.volume, units::Volume{});
  const double wash_pure_L = now.waiting.pure_alcohol.litres();
  const Id first = strip(10020);
  now = told();
  EXPECT_NEAR(now.waiting.volume.litres(), 24.0, 1e-9);
  EXPECT_NEAR(now.in_stills.volume.litres(), 12.0, 1e-9);
  EXPECT_TRUE(now.steps.empty());
  book.tell(10200, RunEnded{first, litres_at_20C(3.6), percent_at_20C(27), {}, {}});
  strip(10300);
  now = told();
  ASSERT_EQ(now.steps.size(), 1U);
  // What the wash held is found again: stripped, in the still, waiting.
  EXPECT_NEAR(now.waiting.volume.litres(), 12.0, 1e-9);
  EXPECT_NEAR(
      (now.steps[0].in.value + now.in_stills.pure_alcohol + now.waiting.pure_alcohol).litres(),
      wash_pure_L, 1e-9);
  strip(10400);
  EXPECT_EQ(told().waiting.volume, units::Volume{});
}

TEST(WashOnItsWay, LessThanAMarkTellsDoesNotWait) {
  Book book;
  book.tell(0, Pitched{litres_at_20C(38), gravity_at_20C(1.060), "distillers-dry",
                       units::Mass::grams(20)});
  book.tell(10000, FermentRead{gravity_at_20C(0.996), {}});
  book.tell(10010, Racked{litres_at_20C(36), {}});
  RunBegun begun;
  begun.kind = RunKind::strip;
  begun.charge = litres_at_20C(35.7);
  book.tell(10020, begun);
  const HouseState house = fold(book.entries);
  const BatchAccount now = account(house, house.batches.at(*book.batch));
  EXPECT_EQ(now.waiting.volume, units::Volume{}) << "a strip of which nothing is named";
  EXPECT_NEAR(now.in_stills.volume.litres(), 35.7, 1e-9);
}

}  // namespace
}  // namespace lynearm::journal
