// Mash and ferment by the calendar.
#include <algorithm>

#include "journal/meaning.hpp"
#include "journal/questioned.hpp"

namespace lynearm::journal {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

using QuestionsOfDays = QuestionsTest;

TEST_F(QuestionsOfDays, AMashTemperatureOfAnotherDayIsAsked) {
  const auto warm = [this](double minutes, double celsius) {
    return book.tell(minutes, MashTemperature{units::Temperature::celsius(celsius)});
  };
  const Id slip = warm(-3 * day, 66);
  warm(0, 90);
  // Soured overnight, it is one mash.
  warm(day, 69);
  warm(day + 10, 66);
  expect_one(slip,
             HasSubstr("A temperature of the mash is told for a time 3.0 days before what "
                       "was told of it next"));
  book.tell(day + 20, Upheld{slip, asked()[0].why, ""});
  EXPECT_THAT(asked(), IsEmpty());
  const Id late =
      book.tell(4 * day, MashWater{units::Volume::litres(5), units::Temperature::celsius(78)});
  expect_one(late, HasSubstr("Water of the mash is told for a time 3.0 days after what"));
}

TEST_F(QuestionsOfDays, ASecondMashOfOneBatchIsUpheldOnce) {
  const auto warm = [this](double minutes) {
    return book.tell(minutes, MashTemperature{units::Temperature::celsius(66)});
  };
  for (int i = 0; i < 4; ++i) warm(i * 20);
  const Id next = warm(7 * day);
  expect_one(next, HasSubstr("7.0 days after"));
  book.tell(7 * day + 1, Upheld{next, asked()[0].why, "a second mash"});
  for (int i = 1; i < 9; ++i) {
    warm(7 * day + i * 20);
    EXPECT_THAT(asked(), IsEmpty()) << i;
  }
  // Also by what is told late of either day.
  warm(7 * day - 12);
  warm(70);
  EXPECT_THAT(asked(), IsEmpty());
  const Id third = warm(14 * day);
  expect_one(third, HasSubstr("6.9 days after"));
}

TEST_F(QuestionsOfDays, AFewTemperaturesOfADayBeforeAreAskedOnceAlsoIfTheBatchWasBegunSince) {
  book.tell(3 * day, BatchBegun{"Slip", "", false});
  const auto warm = [this](double minutes) {
    return book.tell(minutes, MashTemperature{units::Temperature::celsius(66)});
  };
  const Id early = warm(0);
  for (int i = 1; i < 4; ++i) warm(3 * day + i * 20);
  expect_one(early, HasSubstr("3.0 days before what was told of it next"));
  book.tell(3 * day + 90, Upheld{early, asked()[0].why, "soured"});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfDays, WhatComesBeforeItsBatchWasBegunIsAskedIfMostOfItsMashCameAfter) {
  const auto warm = [this](double minutes) {
    return book.tell(minutes, MashTemperature{units::Temperature::celsius(66)});
  };
  book.tell(0, BatchBegun{"Slip", "", false});
  const Id early = warm(-day);
  EXPECT_THAT(asked(), IsEmpty()) << "a batch may be begun here when its mash is over";
  warm(60);
  warm(75);
  expect_one(early, HasSubstr("24.0 h before the batch was begun, and most of its mash came"));
}

TEST_F(QuestionsOfDays, ABatchMayBeBegunInTheMidstOfItsMash) {
  book.tell(0, BatchBegun{"Noon", "", false});
  for (const double minutes : {-180.0, -150.0, 10.0, 40.0, 90.0}) {
    book.tell(minutes, MashTemperature{units::Temperature::celsius(66)});
  }
  EXPECT_THAT(asked(), IsEmpty());
}

class QuestionsOfPitch : public QuestionsTest {
 protected:
  Id read(double minutes, double gravity) {
    return book.tell(minutes, FermentRead{gravity_at_20C(gravity), {}});
  }
};

TEST_F(QuestionsOfPitch, WhatIsToldOfAFermentBeforeItIsAskedAndMakesNoWash) {
  const Id pitch = pitched(20, 1.064);
  book.tell(-2 * day, FermentRead{{}, units::Temperature::celsius(30)});  // cools, or sours
  read(-3 * day, 1.075);  // before it was thinned
  read(-day, 1.061);
  EXPECT_THAT(asked(), IsEmpty());
  EXPECT_FALSE(house.batches.at(*book.batch).ferment.wash);
  const Id other = read(-4 * 60, 1.040);
  expect_one(other, HasSubstr("A gravity of 1.0400 is told for a time 4.0 h before"));
  // With the racking it is the pitch that was told late.
  const Id clear = book.tell(-180, Racked{litres_at_20C(18), {}});
  expect_one(pitch, HasSubstr("The pitch is told for a time 4.0 h after a gravity of 1.0400"));
  EXPECT_FALSE(house.batches.at(*book.batch).ferment.wash);
  book.correct(other, 1, 3 * day, FermentRead{gravity_at_20C(1.040), {}});
  expect_one(clear, HasSubstr("The racking is told for a time 3.0 h before"));
}

TEST_F(QuestionsOfPitch, AStripOfItsWashForADayBeforeItIsAsked) {
  pitched(20, 1.064);
  read(2 * day, 1.020);
  read(5 * day, 0.998);
  const Id strip = begun(-3 * day, RunKind::strip, 19, 8, 19);
  expect_one(strip, HasSubstr("The heat on this wash is told to have gone on 3.0 days before "
                              "the wort was pitched."));
  book.tell(6 * day, Upheld{strip, asked()[0].why, ""});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfPitch, ToldAfterItsRackingAndStripItIsItsTimeThatIsAsked) {
  const Id pitch = pitched(40, 1.064);
  book.tell(-5 * day, Racked{litres_at_20C(38), {}});
  begun(-4 * day, RunKind::strip, 19, {}, 19);
  begun(-3 * day, RunKind::strip, 19, {}, 19);
  expect_one(pitch,
             HasSubstr("The pitch is told for a time 5.0 days after the wash was racked"));
}

using QuestionsOfRises = QuestionsOfPitch;

TEST_F(QuestionsOfRises, AGravityThatRisesAgainIsAskedAndUpheldAlsoAsMoreIsTold) {
  pitched(20, 1.064);
  read(2 * day, 1.020);
  read(5 * day, 1.004);
  const Id risen = read(5 * day + 60, 1.040);
  expect_one(risen, HasSubstr("A gravity of 1.0400 is told for a time 60 min after one of "
                              "1.0040: a wash does not gain."));
  read(6 * day, 1.003);
  expect_one(risen, HasSubstr("1.0400"));
  book.tell(7 * day, Upheld{risen, asked()[0].why, "syrup went in"});
  EXPECT_THAT(asked(), IsEmpty());
  read(5 * day + 30, 1.002);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfRises, OfOneFarBelowThoseThatCameLaterItIsThatOneThatIsAsked) {
  pitched(20, 1.064);
  read(day, 1.050);
  const Id slip = read(2 * day, 0.996);
  const Id next = read(3 * day, 1.030);
  expect_one(next, HasSubstr("after one of 0.9960"));
  read(4 * day, 1.015);
  expect_one(slip, HasSubstr("A gravity of 0.9960 is told for a time 24.0 h before one of "
                             "1.0300, and others that came later are above it too"));
  // Also once it ends as low.
  read(7 * day, 0.996);
  expect_one(slip, HasSubstr("0.9960"));
  book.tell(8 * day, Upheld{slip, asked()[0].why, "that is how it was"});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfRises, SeveralThatRiseAboveAllBeforeThemAreAskedOneByOne) {
  pitched(20, 1.064);
  read(4 * day, 1.010);
  read(5 * day, 1.004);
  const Id first = read(6 * day, 1.040);
  const Id second = read(7 * day, 1.041);
  expect_one(first, HasSubstr("1.0400"));
  book.correct(first, 8 * day, 6 * day, FermentRead{gravity_at_20C(1.004), {}});
  expect_one(second, HasSubstr("1.0410"));
}

TEST_F(QuestionsOfRises, BubblesOrSugarThatWentInAreNoRise) {
  pitched(20, 1.064);
  read(4 * day, 1.010);
  read(5 * day, 1.014);  // on an unstirred glass
  book.tell(6 * day, Added{"sugar", units::Mass::kilograms(1), {}}, Stage::ferment);
  read(6 * day + 60, 1.028);  // 1 kg in 20 L adds 0.019
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfRises, ARefractometerIsTooHighOnceAWashWasFedAndIsNotAsked) {
  pitched(20, 1.064);
  read(4 * day, 0.997);
  book.tell(5 * day, Added{"sugar", units::Mass::kilograms(2), {}}, Stage::ferment);
  // 7 Bx of the dry wash and 9 of the sugar, less a little.
  const GravityRead brix{15.5, GravityScale::brix, units::Temperature::celsius(20)};
  book.tell(5 * day + 60, FermentRead{brix, {}});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfRises, WhatWentInAtThePitchDoesNotExplainARiseOfDaysLater) {
  pitched(20, 1.064);
  book.tell(0, Added{"backset", {}, units::Volume::litres(4)}, Stage::ferment);
  read(4 * day, 1.004);
  const Id slip = read(5 * day, 1.060);
  expect_one(slip, HasSubstr("1.0600"));
}

TEST_F(QuestionsOfRises, ASecondWortIsPouredInAndNothingIsAsked) {
  book.tell(-30, WortDrawn{"first runnings", litres_at_20C(20), gravity_at_20C(1.050)});
  pitched(20, 1.050);
  read(day - 20, 1.040);
  book.tell(day, WortDrawn{"sparge", litres_at_20C(20), gravity_at_20C(1.090)});
  read(day + 10, 1.065);
  read(6 * day, 0.998);
  racked(38);
  begun(8 * day, RunKind::strip, 19, {}, 19);
  begun(9 * day, RunKind::strip, 19, {}, 19);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfRises, OfTwoFermentersOneRiseIsUpheldForAllThatAreNoGreater) {
  pitched(40, 1.064);
  read(day, 1.035);
  const Id other = read(day + 5, 1.045);
  expect_one(other, HasSubstr("5 min after one of 1.0350"));
  book.tell(day + 9, Upheld{other, asked()[0].why, "two fermenters"});
  int i = 2;
  for (const double gravity : {1.018, 1.006, 0.998}) {
    read(i * day, gravity);
    read(i++ * day + 5, gravity + 0.011);
    EXPECT_THAT(asked(), IsEmpty()) << gravity;
  }
  const Id slip = read(i * day, 1.040);
  expect_one(slip, HasSubstr("1.0400"));
}

TEST_F(QuestionsOfPitch, ReadLowItIsAskedAndNotWhatWasReadAfterIt) {
  const Id pitch = pitched(20, 1.046);
  read(60, 1.062);
  read(day, 1.055);
  read(3 * day, 1.030);
  expect_one(pitch,
             HasSubstr("pitched at 1.0460, and a gravity of 1.0620 was read 60 min later"));
  EXPECT_TRUE(asked()[0].counts);
}

TEST_F(QuestionsOfPitch, YeastFoodDoesNotExplainALowGravityBeforeIt) {
  pitched(20, 1.064);
  book.tell(0, Added{"yeast food", units::Mass::grams(20), {}}, Stage::ferment);
  const Id low = read(-day, 1.010);
  expect_one(low, HasSubstr("A gravity of 1.0100 is told for a time 24.0 h before"));
}

TEST_F(QuestionsOfPitch, ToldLateItIsAskedAlsoOnceTheBatchIsFinished) {
  const Id pitch = pitched(20, 1.064);
  read(-4 * day, 1.045);
  read(-3 * day, 1.030);
  read(-2 * day, 1.015);
  read(day, 0.998);
  racked(18);
  begun(8 * day, RunKind::strip, 9, {}, 9);
  begun(9 * day, RunKind::strip, 9, {}, 9);
  expect_one(pitch,
             HasSubstr("The pitch is told for a time 4.0 days after a gravity of 1.0450"));
}

TEST_F(QuestionsOfPitch, ToldLaterThanMostOfItsGravitiesItIsItsTimeThatIsAsked) {
  const Id pitch = pitched(20, 1.064);
  read(-3 * day, 1.040);
  read(-2 * day, 1.020);
  read(-day, 1.001);
  expect_one(pitch, HasSubstr("told for a time 3.0 days after a gravity of 1.0400 was read"));
  book.correct(pitch, 10, -4 * day, Pitched{litres_at_20C(20), gravity_at_20C(1.064), "", {}});
  EXPECT_THAT(asked(), IsEmpty());
  ASSERT_TRUE(house.batches.at(*book.batch).ferment.wash);
  EXPECT_NEAR(house.batches.at(*book.batch).ferment.wash->gravity.ratio(), 1.001, 1e-6);
}

TEST_F(QuestionsOfPitch, ThatWasUpheldIsNotAskedByItsGravitiesAsMoreOfThemCome) {
  const Id pitch = pitched(20, 1.064);
  read(-2 * day, 1.045);
  read(-day, 1.045);
  expect_one(pitch, HasSubstr("told for a time 2.0 days after a gravity of 1.0450 was read"));
  book.tell(1, Upheld{pitch, asked()[0].why, "of another wort"});
  for (int i = 1; i < 5; ++i) {
    read(i * day, 1.064 - 0.01 * i);
    EXPECT_THAT(asked(), IsEmpty()) << i;
  }
}

TEST_F(QuestionsOfPitch, AWortThatIsSweetenedOrReadByRefractometerIsNotAsked) {
  book.tell(-6 * 60, WortDrawn{"first runnings", litres_at_20C(18), gravity_at_20C(1.050)});
  read(-5 * 60, 1.050);
  book.tell(-4 * 60, Added{"sugar", units::Mass::kilograms(1.1), {}}, Stage::mash);
  const GravityRead brix{14.5, GravityScale::brix, units::Temperature::celsius(20)};
  const Id wort = book.tell(-3 * 60, FermentRead{brix, {}});
  pitched(20, 1.0615);
  EXPECT_THAT(asked(), IsEmpty());
  const auto& points = house.batches.at(*book.batch).ferment.points;
  const auto found = std::find_if(points.begin(), points.end(), [&wort](const auto& point) {
    return point.told.entry == wort;
  });
  ASSERT_NE(found, points.end());
  EXPECT_EQ(found->gravity->ratio(), wort_gravity(brix).ratio());
  // Of a day on which there was no wort, it is a slip.
  const Id slip = read(-2 * day, 1.030);
  expect_one(slip, HasSubstr("A gravity of 1.0300 is told for a time 2.0 days before"));
}

TEST_F(QuestionsOfPitch, OnTheGrainBeforeItsMashIsAsked) {
  const Id pitch = pitched(20, 1.064);
  for (int i = 0; i < 3; ++i) {
    book.tell(3 * day + i * 20, MashTemperature{units::Temperature::celsius(66)});
  }
  expect_one(pitch, HasSubstr("The pitch is told for a time 3.0 days before the first that was "
                              "told of the mash."));
}

TEST_F(QuestionsOfPitch, BeforeItsFirstWortWasDrawnIsAsked) {
  const Id pitch = pitched(20, 1.064);
  book.tell(600, WortDrawn{"first runnings", litres_at_20C(20), gravity_at_20C(1.064)});
  EXPECT_THAT(asked(), IsEmpty()) << "written down in the evening";
  book.correct(pitch, 200, -3 * day, Pitched{litres_at_20C(20), gravity_at_20C(1.064), "", {}});
  expect_one(pitch, HasSubstr("The pitch is told for a time 3.4 days before the first wort"));
}

TEST_F(QuestionsOfDays, AWashBelowItsFreezingIsAsked) {
  pitched(20, 1.064);
  const Id cold = book.tell(60, FermentRead{{}, units::Temperature::celsius(-15)});
  expect_one(cold, HasSubstr("-15 °C: it freezes above that"));
}

TEST_F(QuestionsOfDays, AsWarmAsWasUpheldIsNotAskedWheneverItWas) {
  pitched(20, 1.064);
  const auto warm = [this](double minutes, double celsius) {
    return book.tell(minutes, FermentRead{{}, units::Temperature::celsius(celsius)});
  };
  const Id hot = warm(300, 68);
  expect_one(hot, HasSubstr("The wash is told to have been at 68 °C: yeast dies above"));
  book.tell(301, Upheld{hot, asked()[0].why, "pasteurised"});
  warm(240, 50);
  EXPECT_THAT(asked(), IsEmpty());
  const Id hotter = warm(360, 85);
  expect_one(hotter, HasSubstr("85 °C"));
}

}  // namespace
}  // namespace lynearm::journal
