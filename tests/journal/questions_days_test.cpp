// Mash and ferment by the calendar.
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
                       "was told of it besides"));
  // Upheld, the others are looked at by themselves.
  book.tell(day + 20, Upheld{slip, asked()[0].why, ""});
  EXPECT_THAT(asked(), IsEmpty());
  const Id late =
      book.tell(4 * day, MashWater{units::Volume::litres(5), units::Temperature::celsius(78)});
  expect_one(late, HasSubstr("Water of the mash is told for a time 3.0 days after what"));
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

TEST_F(QuestionsOfDays, WhatIsToldOfAFermentBeforeItsPitchIsAskedAndMakesNoWash) {
  const auto read = [this](double minutes, double gravity) {
    return book.tell(minutes, FermentRead{gravity_at_20C(gravity), {}});
  };
  pitched(20, 1.064);
  book.tell(-12 * 60, FermentRead{{}, units::Temperature::celsius(30)});  // cools overnight
  read(-60, 1.065);                                                       // its wort
  EXPECT_THAT(asked(), IsEmpty());
  EXPECT_FALSE(house.batches.at(*book.batch).ferment.wash);
  const Id early = book.tell(-2 * day, FermentRead{{}, units::Temperature::celsius(26)});
  const Id other = read(-4 * 60, 1.040);
  const Id clear = book.tell(-30, Racked{litres_at_20C(18), {}});
  ASSERT_THAT(asked(), SizeIs(3));
  EXPECT_EQ(asked()[0].entry, early);
  EXPECT_THAT(asked()[0].why,
              HasSubstr("told for a time 2.0 days before the wort was pitched"));
  EXPECT_EQ(asked()[1].entry, other);
  EXPECT_THAT(asked()[1].why, HasSubstr("A gravity of 1.0400 is told for a time 4.0 h before"));
  EXPECT_EQ(asked()[2].entry, clear);
  EXPECT_THAT(asked()[2].why, HasSubstr("The racking is told for a time 30 min before"));
  EXPECT_FALSE(house.batches.at(*book.batch).ferment.wash);
}

TEST_F(QuestionsOfDays, APitchBeforeItsFirstWortWasDrawnIsAsked) {
  const Id pitch = pitched(20, 1.064);
  book.tell(90, WortDrawn{"first runnings", litres_at_20C(20), gravity_at_20C(1.064)});
  EXPECT_THAT(asked(), IsEmpty()) << "written down in any order";
  book.correct(pitch, 200, -3 * day, Pitched{litres_at_20C(20), gravity_at_20C(1.064), "", {}});
  expect_one(pitch, HasSubstr("The pitch is told for a time 3.1 days before the first wort"));
}

TEST_F(QuestionsOfDays, AWashBelowItsFreezingIsAsked) {
  pitched(20, 1.064);
  const Id cold = book.tell(60, FermentRead{{}, units::Temperature::celsius(-15)});
  expect_one(cold, HasSubstr("-15 °C: it freezes above that"));
}

}  // namespace
}  // namespace lynearm::journal
