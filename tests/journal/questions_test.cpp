// What cannot be is asked about once, in a sentence with both figures; what is only read badly
// is not. Each amount is set against the band by hand.
#include "journal/questioned.hpp"

namespace lynearm::journal {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;
using units::Volume;
using units::VolumeStrength;

TEST_F(QuestionsTest, MoreRackedThanWasPitchedIsAskedOnce) {
  pitched(52, 1.064);
  const Id racking = racked(62);
  expect_one(racking,
             AllOf(HasSubstr("racking tells 62.0 L"), HasSubstr("52.0 L were pitched")));
}

TEST_F(QuestionsTest, ARackingWithinItsMarksOrWithWhatWasPutInIsNotAsked) {
  pitched(52, 1.064);
  book.tell(day, Added{"sugar syrup", {}, Volume::litres(6)}, Stage::ferment);
  racked(60);  // 58 L and 4 sd of both marks, 3.3 L
  EXPECT_THAT(asked(), IsEmpty());
  Book plain;
  std::swap(book, plain);
  pitched(52, 1.064);
  racked(53.5);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, TheWashThereWasIsSaidToBeAsPitchedOrAsRacked) {
  const auto of = [this](double racked_L, std::optional<double> lees_L) {
    book.entries.clear();
    fermented(40);
    Racked body{litres_at_20C(racked_L), {}};
    if (lees_L) body.lees = Volume::litres(*lees_L);
    book.tell(7 * day, body);
    begun(8 * day, RunKind::strip, 60, std::nullopt, 60);
    const std::vector<Puzzle>& all = asked();
    EXPECT_THAT(all, SizeIs(1));
    return all.empty() ? std::string() : all[0].why;
  };
  EXPECT_THAT(of(36, {}), HasSubstr("there were 40.0 L as pitched."));
  EXPECT_THAT(of(40, 0.5), HasSubstr("there were 40.5 L as racked, with the lees."));
  EXPECT_THAT(of(40.5, {}), HasSubstr("there were 40.5 L as racked."));
}

TEST_F(QuestionsTest, MoreWashChargedThanThereWasIsAskedOfTheChargeThatPassesIt) {
  fermented(52);
  racked(50);
  begun(8 * day, RunKind::strip, 26, {}, 26);
  const Id second = begun(9 * day, RunKind::strip, 30, {}, 30);
  begun(10 * day, RunKind::strip, 10, {}, 10);
  expect_one(second, AllOf(HasSubstr("56.0 L of the wash"), HasSubstr("52.0 L")));
}

TEST_F(QuestionsTest, AChargeStrongerThanItsLotsIsAskedAndOneWateredIsNot) {
  const Id lot = brought(10, 33);
  const Id run = begun(2, RunKind::spirit, 10, 40, {}, {part(lot, 10)});
  expect_one(run, AllOf(HasSubstr("4.00 L of pure alcohol"), HasSubstr("3.30 L")));
  Book plain;
  std::swap(book, plain);
  const Id same = brought(10, 33);
  begun(2, RunKind::spirit, 14, 24.2, {}, {part(same, 10)});  // 3.39 L: within the band
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, AChargeOfLessThanWentIntoItIsAsked) {
  const Id lot = brought(5.38, 33);
  const Id run = begun(2, RunKind::spirit, 1.5, {}, {}, {part(lot, 5.38)});
  expect_one(run, "5.38 L of lots and wash went into a charge of 1.50 L.");
  // Gauged weak enough to hold no more alcohol than went in.
  Book gauged;
  std::swap(book, gauged);
  const Id same = brought(5.38, 33);
  const Id weak = begun(2, RunKind::spirit, 1.5, 33, {}, {part(same, 5.38)});
  expect_one(weak, HasSubstr("5.38 L of lots and wash went into a charge of 1.50 L"));
  Book with_wash;
  std::swap(book, with_wash);
  fermented(26);
  racked(25);
  const Id strip = begun(8 * day, RunKind::strip, 12, {}, 25);
  expect_one(strip, HasSubstr("25.00 L of lots and wash went into a charge of 12.00 L"));
}

TEST_F(QuestionsTest, AChargeThatShrankInItsMixingOrIsReadAtItsMarksIsNotAsked) {
  const Id lot = brought(10, 33);
  begun(2, RunKind::spirit, 9.5, {}, {}, {part(lot, 10)});  // 4 sd of both marks: 0.55 L
  EXPECT_THAT(asked(), IsEmpty());
  Book warm;
  std::swap(book, warm);
  const Id same = brought(10, 60);
  RunBegun run;
  run.charge = {Volume::litres(10.15), units::Temperature::celsius(35)};
  run.parts = {part(same, 10)};
  book.tell(2, run);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, AChargeStrongerThanItsWashIsAsked) {
  fermented(26);
  racked(25);
  const Id run = begun(8 * day, RunKind::strip, 25, 15, 25);
  expect_one(run, AllOf(HasSubstr("3.75 L of pure alcohol"), HasSubstr("held 2.")));
}

TEST_F(QuestionsTest, AWashReadLongBeforeMayHaveFermentedOn) {
  pitched(26, 1.064);
  book.tell(2 * day, FermentRead{gravity_at_20C(1.040), {}});  // 3 %vol then
  racked(25);
  const Id run = begun(8 * day, RunKind::strip, 25, {}, 25);
  book.tell(8 * day + 300, RunEnded{run, litres_at_20C(6.5), percent_at_20C(29), {}, {}});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, ASlipOfTheLastGravityIsNotHeldAgainstTheCharge) {
  fermented(26);
  const Id slip = book.tell(6 * day + 60, FermentRead{gravity_at_20C(1.049), {}});  // for 0.994
  racked(25);
  begun(8 * day, RunKind::strip, 25, 8.5, 25);
  expect_one(slip, HasSubstr("a wash does not gain"));
}

TEST_F(QuestionsTest, LowWinesThatHoldMoreThanTheirWashAreAskedWhereTheyWereGauged) {
  fermented(26);
  racked(25);
  const Id run = begun(8 * day, RunKind::strip, 25, {}, 25);
  const Id end = book.tell(8 * day + 300, RunEnded{run, litres_at_20C(8), {}, {}, {}});
  const Id gauging = book.tell(
      9 * day, LotGauged{{end, LotKind::low_wines}, litres_at_20C(8), percent_at_20C(45)});
  expect_one(gauging, AllOf(HasSubstr("low wines are 3.60 L of pure alcohol"),
                            HasSubstr("the charge held 2.")));
}

TEST_F(QuestionsTest, MoreLowWinesThanTheChargeAreAskedThoughItsStrengthIsNotKnown) {
  const Id run = begun(1, RunKind::strip, 25, {});
  const Id end = book.tell(300, RunEnded{run, litres_at_20C(70), {}, {}, {}});
  expect_one(end, AllOf(HasSubstr("70.00 L"), HasSubstr("charge of 25.00 L")));
}

TEST_F(QuestionsTest, JarsThatHoldMoreThanTheChargeAreAskedAtTheJarThatPassesIt) {
  const Id run = begun(1, RunKind::spirit, 10, 30);
  book.tell(100, JarGauged{run, 1, litres_at_20C(2), percent_at_20C(75)});
  const Id second = book.tell(101, JarGauged{run, 2, litres_at_20C(3), percent_at_20C(70)});
  book.tell(102, JarGauged{run, 3, litres_at_20C(2), percent_at_20C(50)});
  expect_one(second, AllOf(HasSubstr("to jar 2 hold 3.60 L of pure alcohol"),
                           HasSubstr("held 3.00 L")));
}

TEST_F(QuestionsTest, AJarGaugedBeyondItsMarkIsAsked) {
  const Id run = begun(1, RunKind::spirit, 10, 30);
  book.tell(90, JarFilled{run, 1, Volume::millilitres(500)});
  const Id gauging = book.tell(100, JarGauged{run, 1, litres_at_20C(0.72), percent_at_20C(75)});
  book.tell(91, JarFilled{run, 2, Volume::millilitres(500)});
  book.tell(101, JarGauged{run, 2, litres_at_20C(0.54), percent_at_20C(72)});
  expect_one(gauging, AllOf(HasSubstr("Jar 1 was gauged at 720 mL"), HasSubstr("500 mL")));
}

TEST_F(QuestionsTest, AJarGaugedFarBelowItsMarkIsAskedAndAnAiredOneIsNot) {
  const Id run = begun(1, RunKind::spirit, 30, 30);
  book.tell(90, JarFilled{run, 1, Volume::millilitres(4000)});
  const Id gauging = book.tell(100, JarGauged{run, 1, litres_at_20C(1.0), percent_at_20C(75)});
  book.tell(91, JarFilled{run, 2, Volume::millilitres(500)});
  book.tell(101, JarGauged{run, 2, litres_at_20C(0.47), percent_at_20C(72)});
  book.tell(92, JarFilled{run, 3, Volume::millilitres(60)});
  book.tell(102, JarGauged{run, 3, litres_at_20C(0.04), percent_at_20C(70)});
  expect_one(gauging, AllOf(HasSubstr("Jar 1 was gauged at 1000 mL"), HasSubstr("4000 mL")));
}

TEST_F(QuestionsTest, AJarFarWeakerThanOneAfterItIsAsked) {
  const Id run = begun(1, RunKind::spirit, 10, 30);
  const Id weak = book.tell(100, JarGauged{run, 1, litres_at_20C(0.5), percent_at_20C(8)});
  book.tell(101, JarGauged{run, 2, litres_at_20C(0.5), percent_at_20C(72.5)});
  book.tell(102, JarGauged{run, 3, litres_at_20C(0.5), percent_at_20C(40)});
  const Id wet = begun(1, RunKind::spirit, 10, 30);
  book.tell(100, JarGauged{wet, 1, litres_at_20C(0.1), percent_at_20C(45)});
  book.tell(101, JarGauged{wet, 2, litres_at_20C(0.5), percent_at_20C(76)});
  expect_one(weak, AllOf(HasSubstr("Jar 1 was gauged at 8.0 %vol"),
                         HasSubstr("jar 2, after it, at 72.5 %vol")));
}

TEST_F(QuestionsTest, JarsThatHoldMoreThanCameOverAreAskedAtTheEnd) {
  const Id run = begun(1, RunKind::spirit, 25, 30);
  for (int jar = 1; jar <= 4; ++jar) {
    book.tell(90 + jar, JarFilled{run, jar, Volume::millilitres(1550)});
  }
  const Id end = book.tell(300, RunEnded{run, litres_at_20C(3.3), {}, {}, {}});
  expect_one(end, AllOf(HasSubstr("3.30 L were told to have come over"),
                        HasSubstr("after the first hold 4.65 L")));
  // Foreshots that were thrown away, and a jar decanted into another.
  Book plain;
  std::swap(book, plain);
  const Id other = begun(1, RunKind::spirit, 25, 30);
  for (int jar = 1; jar <= 4; ++jar) {
    book.tell(90 + jar, JarFilled{other, jar, Volume::millilitres(500)});
  }
  book.tell(101, JarGauged{other, 3, litres_at_20C(0.54), percent_at_20C(70)});
  book.tell(300, RunEnded{other, litres_at_20C(1.5), {}, {}, {}});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, MoreLeftInThePotThanWasChargedIsAskedAtTheEnd) {
  const Id run = begun(1, RunKind::spirit, 4.2, 30);
  const Id end = book.tell(300, RunEnded{run, {}, {}, Volume::litres(40), {}});
  expect_one(end, AllOf(HasSubstr("40.00 L are told to be left"), HasSubstr("of 4.20 L")));
  Book plain;
  std::swap(book, plain);
  const Id other = begun(1, RunKind::spirit, 4.2, 30);
  book.tell(300, RunEnded{other, litres_at_20C(1.5), {}, Volume::litres(2.75), {}});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, AWortOrWashThatKillsItsYeastIsAskedAbout) {
  VolumeRead hot = litres_at_20C(40);
  hot.at = units::Temperature::celsius(52);
  const Id pitch = book.tell(0, Pitched{hot, gravity_at_20C(1.064), "", {}});
  expect_one(pitch, HasSubstr("at 52 °C: yeast dies above some 45 °C"));
  Book warm;
  std::swap(book, warm);
  pitched(40, 1.064);
  book.tell(day, FermentRead{{}, units::Temperature::celsius(38)});
  const Id read = book.tell(2 * day, FermentRead{{}, units::Temperature::celsius(78)});
  racked(39);
  book.tell(8 * day, FermentRead{{}, units::Temperature::celsius(78)});
  expect_one(read, HasSubstr("The wash is told to have been at 78 °C"));
}

TEST_F(QuestionsTest, ALotThatIsNotWhatItsPartsAndItsWaterMakeIsAsked) {
  // By hand: 2.72 L of ethanol are 2.147 kg, in 3.55 + 1 kg in all 47.2 % by mass, at 0.918
  // kg/L.
  const Id made = blended(brought(4, 68), 4, 5.5, 49.3);
  expect_one(made, AllOf(HasSubstr("would be 4.96 L at 54.9 %vol"),
                         HasSubstr("gauged at 5.50 L and 49.3 %vol")));
  // A quarter that is gone, and nothing told of it.
  Book less;
  std::swap(book, less);
  const Id short_of = blended(brought(4, 68), 4, 3.5, std::nullopt);
  expect_one(short_of, HasSubstr("gauged at 3.50 L"));
  Book plain;
  std::swap(book, plain);
  blended(brought(4, 68), 4, 4.9, 54.2);
  EXPECT_THAT(asked(), IsEmpty());
  // The water was never told.
  Book dry;
  std::swap(book, dry);
  LotMade untold{"reduced", {part(brought(4, 70), 4)}, {}, {}, {}};
  untold.volume = litres_at_20C(6.2);
  untold.strength = percent_at_20C(45);
  book.tell(5, untold);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, WaterBeyondAllMeasureDoesNotHideAGainOfAlcohol) {
  const Id hearts = brought(4, 68);
  LotMade made{"reduced", {part(hearts, 4)}, units::Mass::kilograms(127.0), {}, {}};
  made.volume = litres_at_20C(5);
  made.strength = percent_at_20C(64);
  const Id told = book.tell(5, made);
  expect_one(told, AllOf(HasSubstr("holds 3.20 L of pure alcohol"), HasSubstr("held 2.72 L")));
}

TEST_F(QuestionsTest, AReducedLotWithMoreAlcoholThanItsPartsIsAsked) {
  const Id hearts = brought(4, 68);
  const Id made = blended(hearts, 4, 5.0, 64);
  expect_one(made, AllOf(HasSubstr("holds 3.20 L of pure alcohol"), HasSubstr("held 2.72 L")));
  Book plain;
  std::swap(book, plain);
  blended(brought(4, 68), 4, 5.02, 54.9);  // 2.76 L
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, ALotGaugedAnewAtMoreThanThereWasIsAsked) {
  const Id lot = brought(4, 68);
  book.tell(3, LotTaken{{lot, LotKind::hearts}, Volume::litres(1), Gone::sample, ""});
  const Id anew =
      book.tell(4, LotGauged{{lot, LotKind::hearts}, litres_at_20C(4), percent_at_20C(68)});
  expect_one(anew, AllOf(HasSubstr("2.72 L of pure alcohol"), HasSubstr("there were 2.04 L")));
}

TEST_F(QuestionsTest, WhatLittleIsLeftOfALotIsNotBetterKnownThanWhatWasTakenOut) {
  const Id lot = brought(10, 68);
  book.tell(3, LotTaken{{lot, LotKind::hearts}, Volume::litres(9.5), Gone::given, ""});
  // 0.5 ± 0.14 L by two marks of some 10 L.
  book.tell(4, LotGauged{{lot, LotKind::hearts}, litres_at_20C(0.7), percent_at_20C(68)});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, BottlesFarOffTheStrengthOfTheirLotAreAskedOnce) {
  const Id reduced = blended(brought(4, 68), 4, 5.0, 54.6);
  const Id bottles = bottled(reduced, 5, 8, 0.5, 40);
  expect_one(bottles, AllOf(HasSubstr("tells 40.0 %vol"), HasSubstr("gauged at 54.6 %vol")));
}

TEST_F(QuestionsTest, BottlesWithinTheBandOfTheKitsGlassAreNotAsked) {
  const Id reduced = blended(brought(4, 68), 4, 5.0, 54.6);
  bottled(reduced, 5, 8, 0.5, 52.6);
  EXPECT_THAT(asked(), SizeIs(1)) << "4 sd of two readings of 0.3 %vol: 1.7 %vol";
  plan::Instruments kit;
  kit.alcoholmeter = VolumeStrength::percent(1.0);
  glass = glass_of(kit);
  EXPECT_THAT(asked(), IsEmpty()) << "of 0.8 %vol: 4.4 %vol";
}

TEST_F(QuestionsTest, WhatWoodHidFromTheAlcoholmeterIsNotAsked) {
  const Id hearts = brought(4, 68);
  WoodFilled filled;
  filled.part = part(hearts, 4);
  filled.in = "staves";
  const Id wood = book.tell(5, filled);
  const Id off = book.tell(
      6, WoodEmptied{{wood, LotKind::spirit}, litres_at_20C(3.9), percent_at_20C(61.4)});
  bottled(off, 3.8, 7, 0.5, 64.0);  // true; what is dissolved hides 0.9 %vol, the glass 1.7
  EXPECT_THAT(asked(), IsEmpty());
  Book plain;
  std::swap(book, plain);
  bottled(blended(brought(4, 68), 4, 5.0, 54.6), 5, 7, 0.5, 57.2);
  EXPECT_THAT(asked(), SizeIs(1)) << "no wood, nothing hidden";
}

// 99 L at 50 %vol came off of 1.55 L and nothing was asked.
TEST_F(QuestionsTest, FarMoreOffTheWoodThanWasLaidOnItIsAskedThere) {
  WoodFilled filled;
  filled.part = part(brought(1.55, 57.3), 1.55);
  filled.in = "staves";
  const Id wood = book.tell(5, filled);
  const Id off =
      book.tell(6, WoodEmptied{{wood, LotKind::spirit}, litres_at_20C(99), percent_at_20C(50)});
  expect_one(off, AllOf(HasSubstr("49.50 L of pure alcohol came off the wood"),
                        HasSubstr("held 0.89 L")));
}

TEST_F(QuestionsTest, MoreInBottlesThanWasPouredIsAskedOnce) {
  const Id reduced = blended(brought(4, 68), 4, 5.0, 54.6);
  const Id bottles = bottled(reduced, 3, 10, 0.5, 54.6);
  expect_one(bottles, AllOf(HasSubstr("bottles hold 2.73 L"), HasSubstr("held 1.64 L")));
}

TEST_F(QuestionsTest, WhatTheFoldAsksOfAnEntryIsNotAskedTwice) {
  const Id lot = brought(2, 33);
  // 10 L out of 2 L: the charge then holds more than the lot gave.
  const Id run = begun(2, RunKind::spirit, 10, 33, {}, {part(lot, 10)});
  expect_one(run, HasSubstr("10.000 L are taken out of 2.000 L"));
}

TEST_F(QuestionsTest, WhatIsCorrectedIsNotAskedAnyMore) {
  pitched(52, 1.064);
  const Id racking = racked(62);
  ASSERT_THAT(asked(), SizeIs(1));
  book.correct(racking, 8 * day, 7 * day, Racked{litres_at_20C(50), {}});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, ALotOfNoBatchIsAskedOfTheHouse) {
  book.batch.reset();
  const Id made = blended(brought(4, 68), 4, 5.0, 64);
  expect_one(made, HasSubstr("3.20 L"));
}

TEST_F(QuestionsTest, AJarFarTooStrongIsAskedAndNotThoseBeforeIt) {
  const Id run = begun(0, RunKind::spirit, 20, 30);
  Id slip = run;
  int jar = 0;
  for (const double percent : {75, 72, 70, 66, 60, 52, 45, 82, 30}) {
    ++jar;
    const Id one =
        book.tell(900 + jar, JarGauged{run, jar, litres_at_20C(0.5), percent_at_20C(percent)});
    if (percent == 82) slip = one;
  }
  expect_one(slip,
             HasSubstr("Jar 8 was gauged at 82.0 %vol and jar 6, before it, at 52.0 %vol"));
}

TEST_F(QuestionsTest, AJarToldTenfoldIsAskedWhicheverBringsThemOverTheCharge) {
  const Id run = begun(0, RunKind::spirit, 20, 30);
  Id slip = run;
  for (int jar = 1; jar <= 6; ++jar) {
    const Id one = book.tell(day + jar * 60,
                             JarFilled{run, jar, units::Volume::litres(jar == 2 ? 15 : 1.5)});
    if (jar == 2) slip = one;
  }
  expect_one(slip, HasSubstr("With the 15.00 L of jar 2 the jars to jar 6 hold 22.50 L, of a "
                             "charge of 20.00 L."));
}

TEST_F(QuestionsTest, JarsThatWereUpheldAreNotAskedAgainAsTheyAreGauged) {
  const Id run = begun(0, RunKind::spirit, 10, 30);
  for (int jar = 1; jar <= 6; ++jar) {
    book.tell(3 * day + jar * 60, JarFilled{run, jar, units::Volume::litres(2)});
  }
  ASSERT_THAT(asked(), SizeIs(1));
  book.tell(4 * day, Upheld{asked()[0].entry, asked()[0].why, "topped the pot up"});
  for (int jar = 1; jar <= 6; ++jar) {
    book.tell(4 * day + jar, JarGauged{run, jar, litres_at_20C(1.98), percent_at_20C(20)});
    EXPECT_THAT(asked(), IsEmpty()) << jar;
  }
}

TEST_F(QuestionsTest, LowWinesMadeUpWithWaterAreNotAskedOnceAllOfTheWashWasStripped) {
  fermented(26);
  racked(25);
  begun(8 * day, RunKind::strip, 24, {}, 24);
  begun(9 * day, RunKind::strip, 20, {}, {}, {part(brought(8, 30), 8)});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, AStripOfFeintsOfWhichTheRestIsNotToldIsAsked) {
  fermented(60);
  const Id feints = brought(3, 40, LotKind::feints);
  const Id run = begun(7 * day, RunKind::strip, 28, {}, {}, {part(feints, 3, LotKind::feints)});
  expect_one(run, AllOf(HasSubstr("named are 3.00 L of a charge of 28.00 L"),
                        HasSubstr("seems to wait")));
  RunBegun told;
  told.kind = RunKind::strip;
  told.charge = litres_at_20C(28);
  told.wash = Volume::litres(25);
  told.parts = {part(feints, 3, LotKind::feints)};
  book.correct(run, 8 * day, 7 * day, told);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsTest, AGravityAboveTheWortsIsKeptAskedAndNotReckonedBy) {
  pitched(26, 1.060);
  book.tell(3 * day, FermentRead{gravity_at_20C(1.012), {}});
  const Id read = book.tell(4 * day, FermentRead{gravity_at_20C(1.102), {}});
  expect_one(read, AllOf(HasSubstr("1.1020"), HasSubstr("pitched at 1.0600")));
  const FermentState& ferment = house.batches.at(*book.batch).ferment;
  EXPECT_THAT(ferment.points, SizeIs(2));
  EXPECT_DOUBLE_EQ(ferment.wash->gravity.ratio(), 1.012);
  EXPECT_EQ(ferment.wash->told.at, minute(3 * day));
}

TEST_F(QuestionsTest, AGravityAboveTheWortsBySugarPutInOrByTheGlassIsNotAsked) {
  pitched(26, 1.060);
  book.tell(10, FermentRead{gravity_at_20C(1.063), {}});
  book.tell(day, Added{"sugar", units::Mass::kilograms(2), {}}, Stage::ferment);
  book.tell(day + 9, FermentRead{gravity_at_20C(1.080), {}});
  EXPECT_THAT(asked(), IsEmpty());
}

}  // namespace
}  // namespace lynearm::journal
