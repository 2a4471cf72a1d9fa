// What a maker upheld is not asked again; anything else about the same entry is.
#include "journal/questioned.hpp"

namespace lynearm::journal {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class QuestionsUpheld : public QuestionsTest {
 protected:
  Id uphold(const Id& entry, const std::string& why, double minutes = 8 * day) {
    return book.tell(minutes, Upheld{entry, why, "two fermenters"});
  }
};

TEST_F(QuestionsUpheld, IsNotAskedAgainUntilItIsStruck) {
  pitched(52, 1.064);
  const Id racking = racked(62);
  ASSERT_THAT(asked(), SizeIs(1));
  EXPECT_TRUE(asked()[0].counts);
  const Id upheld = uphold(racking, asked()[0].why);
  EXPECT_THAT(asked(), IsEmpty());
  const auto& told = house.batches.at(*book.batch).upheld;
  ASSERT_THAT(told, SizeIs(1));
  EXPECT_EQ(told[0].upheld.reason, "two fermenters");
  book.correct(upheld, 9 * day, 9 * day, Struck{});
  EXPECT_THAT(asked(), SizeIs(1));
}

TEST_F(QuestionsUpheld, IsAskedAgainOnceItsFiguresAreOthers) {
  pitched(52, 1.064);
  const Id racking = racked(62);
  uphold(racking, asked()[0].why);
  book.correct(racking, 9 * day, 7 * day, Racked{litres_at_20C(82), {}});
  expect_one(racking, HasSubstr("82.0 L of clear wash"));
}

TEST_F(QuestionsUpheld, ToldBeforeWhatItSpeaksOfItHoldsAsWell) {
  pitched(52, 1.064);
  const Id racking = racked(62);
  uphold(racking, asked()[0].why, 3);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsUpheld, IsNotAskedAgainWhereFiguresOfOtherEntriesMoveALittle) {
  const Id lot = brought(4, 50);
  const Id taken = book.tell(
      30, LotTaken{{lot, LotKind::hearts}, units::Volume::litres(4.5), Gone::given, ""});
  expect_one(taken, HasSubstr("out of 4.000 L"));
  uphold(taken, asked()[0].why);
  book.tell(20,
            LotTaken{{lot, LotKind::hearts}, units::Volume::millilitres(50), Gone::sample, ""});
  EXPECT_THAT(asked(), IsEmpty()) << "out of 3.950 L";
  book.tell(21, LotTaken{{lot, LotKind::hearts}, units::Volume::litres(1), Gone::spilt, ""});
  expect_one(taken, HasSubstr("out of 2.950 L"));
}

TEST_F(QuestionsUpheld, AChargeIsNotAskedAgainOnceTheRackingIsTold) {
  pitched(20, 1.064);
  begun(8 * day, RunKind::strip, 14, {}, 14);
  const Id second = begun(9 * day, RunKind::strip, 14, {}, 14);
  expect_one(second, HasSubstr("28.0 L of the wash went into the still; there were 20.0 L as"));
  uphold(second, asked()[0].why, 9 * day + 1);
  racked(18);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsUpheld, AWeakJarIsNotAskedAgainAsOthersAreGauged) {
  const Id run = begun(0, RunKind::spirit, 20, 30);
  const auto gauged = [&](double minutes, int jar, double percent) {
    return book.tell(minutes, JarGauged{run, jar, litres_at_20C(0.5), percent_at_20C(percent)});
  };
  const Id weak = gauged(900, 1, 40);
  gauged(901, 3, 70);
  expect_one(weak,
             HasSubstr("Jar 1 was gauged at 40.0 %vol and jar 3, after it, at 70.0 %vol"));
  uphold(weak, asked()[0].why);
  gauged(902, 2, 72);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsUpheld, OfAnotherEntryIsNot) {
  const Id pitch = pitched(52, 1.064);
  racked(62);
  uphold(pitch, asked()[0].why);
  EXPECT_THAT(asked(), SizeIs(1));
}

TEST_F(QuestionsUpheld, WhatTheFoldLeftOutIsNotUpheld) {
  pitched(52, 1.064);
  const Id again = pitched(40, 1.064);
  ASSERT_THAT(asked(), SizeIs(1));
  EXPECT_FALSE(asked()[0].counts);
  uphold(again, asked()[0].why);
  EXPECT_THAT(asked(), SizeIs(1)) << "it has no effect, and that stays said";
}

TEST_F(QuestionsUpheld, MoreTakenOutThanALotHeldCountsAsAllAndIsUpheld) {
  const Id lot = brought(4, 50);
  const Id run = begun(8, RunKind::spirit, 4, {}, {}, {part(lot, 4)});
  book.correct(
      lot, 9, 1,
      LotBrought{"old hearts", LotKind::hearts, litres_at_20C(3.7), percent_at_20C(50)});
  ASSERT_THAT(asked(), SizeIs(1));
  EXPECT_EQ(asked()[0].entry, run);
  EXPECT_THAT(asked()[0].why, HasSubstr("4.000 L are taken out of 3.700 L of old hearts: all"));
  EXPECT_TRUE(asked()[0].counts);
  uphold(run, asked()[0].why);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsUpheld, AJarGaugedAnewAfterItsCutIsAskedIfItHeldFarLessAndUpheld) {
  const Id run = begun(0, RunKind::spirit, 20, 30);
  const auto holds = [&run](double mL) {
    return JarGauged{run, 1, litres_at_20C(mL / 1000), percent_at_20C(70)};
  };
  const Id gauged = book.tell(300, holds(500));
  JarPoured pour;
  pour.jar = 1;
  pour.hearts = units::Volume::millilitres(500);
  const Id cut = book.tell(400, JarsAllotted{run, {pour}});
  book.correct(gauged, 500, 300, holds(499));
  EXPECT_THAT(asked(), IsEmpty()) << "as two gaugings part";
  book.correct(gauged, 501, 300, holds(450));
  ASSERT_THAT(asked(), SizeIs(1));
  EXPECT_EQ(asked()[0].entry, cut);
  EXPECT_THAT(asked()[0].why, HasSubstr("Jar 1 holds 450 mL, and 500 mL of it are allotted"));
  uphold(cut, asked()[0].why);
  EXPECT_THAT(asked(), IsEmpty());
  const LotState* const hearts = lot_named(house, {cut, LotKind::hearts});
  ASSERT_NE(hearts, nullptr);
  EXPECT_NEAR(spirit::volume(hearts->made).millilitres(), 450, 1e-6);
}

TEST_F(QuestionsUpheld, WhatOthersAskIsUpheldAsWell) {
  const Id pitch = pitched(52, 1.064);
  const std::vector<Puzzle> by_kit{{pitch, "52 L in a fermenter of 30 L", false}};
  house = fold(book.entries);
  std::vector<Puzzle> all;
  ask_besides(all, by_kit, house.batches.at(*book.batch));
  ASSERT_THAT(all, SizeIs(1));
  EXPECT_TRUE(all[0].counts);
  uphold(pitch, by_kit[0].why);
  house = fold(book.entries);
  all.clear();
  ask_besides(all, by_kit, house.batches.at(*book.batch));
  EXPECT_THAT(all, IsEmpty());
}

TEST_F(QuestionsUpheld, AskedForAnotherReasonItIsUpheldForThatToo) {
  // More alcohol than its parts held, and not as strong as they and the water make it.
  const Id made = blended(brought(4, 68), 4, 5.0, 64);
  uphold(made, asked()[0].why);
  expect_one(made, HasSubstr("it would be"));
  uphold(made, asked()[0].why);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsUpheld, OfALotOfNoBatchIsUpheldForTheHouse) {
  book.batch.reset();
  const Id lot = brought(4, 50);
  const Id gauged =
      book.tell(5, LotGauged{{lot, LotKind::hearts}, litres_at_20C(4), percent_at_20C(70)});
  ASSERT_THAT(asked(), SizeIs(1));
  uphold(gauged, asked()[0].why);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsUpheld, ASumThatWasUpheldDoesNotHideALaterSlip) {
  fermented(20);
  begun(8 * day, RunKind::strip, 12, {}, 12);
  const Id second = begun(9 * day, RunKind::strip, 12, {}, 12);
  ASSERT_THAT(asked(), SizeIs(1));
  EXPECT_THAT(asked()[0].why, HasSubstr("24.0 L of the wash"));
  uphold(second, asked()[0].why, 10 * day);
  EXPECT_THAT(asked(), IsEmpty());
  const Id slip = begun(11 * day, RunKind::strip, 120, {}, 120);
  expect_one(slip,
             HasSubstr("120.0 L of the wash went into the still since the charge that was "
                       "upheld; there were 20.0 L"));
}

TEST_F(QuestionsUpheld, JarsThatWereUpheldDoNotHideALaterSlip) {
  const Id run = begun(0, RunKind::spirit, 20, 30);
  const auto filled = [&](double minutes, int jar, double litres) {
    return book.tell(minutes, JarFilled{run, jar, units::Volume::litres(litres)});
  };
  filled(3 * day, 1, 15);
  const Id second = filled(3 * day + 60, 2, 15);
  ASSERT_THAT(asked(), SizeIs(1));
  EXPECT_THAT(asked()[0].why, HasSubstr("The jars to jar 2 hold 30.00 L"));
  uphold(second, asked()[0].why);
  filled(3 * day + 120, 3, 2);
  EXPECT_THAT(asked(), IsEmpty());
  const Id slip = filled(3 * day + 180, 4, 40);
  expect_one(slip,
             HasSubstr("The jars from jar 3 to jar 4 hold 42.00 L, of a charge of 20.00"));
}

TEST_F(QuestionsUpheld, ALoggerInTheWrongUnitIsAskedOnceAndNotAgainAsWarmAsWasUpheld) {
  pitched(20, 1.064);
  const auto read = [&](double minutes, double celsius) {
    return book.tell(minutes, FermentRead{{}, units::Temperature::celsius(celsius)});
  };
  const Id first = read(60, 68);
  read(61, 68);
  read(62, 67);
  expect_one(first, HasSubstr("68 °C"));
  uphold(first, asked()[0].why);
  EXPECT_THAT(asked(), IsEmpty());
  read(63, 69.5);
  EXPECT_THAT(asked(), IsEmpty());
  expect_one(read(64, 75), HasSubstr("75 °C"));
}

TEST_F(QuestionsUpheld, WhatAnotherBatchTellsOfALotIsAskedAndUpheldThere) {
  const Id lot = brought(4, 50);
  const auto here = book.batch;
  book.batch = id_at(1, 201);
  book.tell(4, BatchBegun{"another", "", false});
  const Id gauged =
      book.tell(5, LotGauged{{lot, LotKind::hearts}, litres_at_20C(4), percent_at_20C(70)});
  expect_one(gauged, HasSubstr("Gauged anew"));
  uphold(gauged, asked()[0].why);
  EXPECT_THAT(asked(), IsEmpty());
  book.batch = here;
  EXPECT_THAT(asked(), IsEmpty());
}

}  // namespace
}  // namespace lynearm::journal
