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
  expect_one(slip, HasSubstr("told for 3.0 days before what was told of this mash besides"));
  book.correct(slip, day + 20, -3 * day, Struck{});
  EXPECT_THAT(asked(), IsEmpty());
  const Id late =
      book.tell(4 * day, MashWater{units::Volume::litres(5), units::Temperature::celsius(78)});
  expect_one(late, HasSubstr("told for 3.0 days after what"));
}

TEST_F(QuestionsOfDays, WhatIsToldOfAFermentBeforeItsPitchIsAsked) {
  pitched(20, 1.064);
  book.tell(-12 * 60, FermentRead{{}, units::Temperature::celsius(30)});  // cools overnight
  EXPECT_THAT(asked(), IsEmpty());
  const Id early = book.tell(-2 * day, FermentRead{{}, units::Temperature::celsius(26)});
  const Id clear = book.tell(-60, Racked{litres_at_20C(18), {}});
  ASSERT_THAT(asked(), SizeIs(2));
  EXPECT_EQ(asked()[0].entry, early);
  EXPECT_THAT(asked()[0].why, HasSubstr("It is told for 2.0 days before the wort was pitched"));
  EXPECT_EQ(asked()[1].entry, clear);
  EXPECT_THAT(asked()[1].why, HasSubstr("The racking is told for 60 min before"));
}

}  // namespace
}  // namespace lynearm::journal
