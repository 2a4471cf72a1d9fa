// Runs by the clock, each against a time reckoned by hand from its heat.
#include "journal/questioned.hpp"

namespace lynearm::journal {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;
using units::Power;
using units::Volume;

class QuestionsOfHours : public QuestionsTest {
 protected:
  // 20 L of 8 %vol on 2 kW: 20 x 3.2 x 18 kJ to warm it are 9.6 min, and a litre of ethanol,
  // 0.789 kg at 846 kJ/kg, is 5.6 min more.
  Id on(double minutes, std::optional<double> watts = 2000.0) {
    RunBegun run;
    run.kind = RunKind::strip;
    run.charge = litres_at_20C(20);
    run.strength = percent_at_20C(8);
    if (watts) run.power = Power::watts(*watts);
    return book.tell(minutes, run);
  }
  Id ended(const Id& run, double minutes, double litres, double percent = 30) {
    return book.tell(minutes,
                     RunEnded{run, litres_at_20C(litres), percent_at_20C(percent), {}, {}});
  }
  Id filled(const Id& run, double minutes, int jar, double mL) {
    return book.tell(minutes, JarFilled{run, jar, Volume::millilitres(mL)});
  }
};

TEST_F(QuestionsOfHours, ARunBegunSecondsAfterTheLastEndedIsAsked) {
  ended(on(0), 150, 4);
  const Id next = on(150.4);
  expect_one(next, AllOf(HasSubstr("24 s after the strip before"), HasSubstr("charged")));
}

TEST_F(QuestionsOfHours, ARunBegunBeforeTheOneBeforeEndedIsAskedAlsoAcrossBatches) {
  ended(on(0), 150, 4);
  book.batch = id_at(1, 201);
  const Id next = on(120);
  expect_one(next, HasSubstr("30 min before the strip begun earlier is told to have ended"));
}

TEST_F(QuestionsOfHours, ARunBegunOnceThePotWasChargedIsNotAsked) {
  ended(on(0), 150, 4);
  on(170);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfHours, AnEndBeforeTheHeatCanHaveDrivenItOverIsAsked) {
  // 4 L take 32 min at the least; less than half of them is asked about.
  const Id strip = on(0);
  const Id end = ended(strip, 15, 4);
  expect_one(end, AllOf(HasSubstr("4.00 L are told to have come over 15 min after the heat"),
                        HasSubstr("2.0 kW need some 32 min")));
  book.correct(end, 20, 17, RunEnded{strip, litres_at_20C(4), percent_at_20C(30), {}, {}});
  EXPECT_THAT(asked(), IsEmpty()) << "a flame may be stronger than it was told";
}

TEST_F(QuestionsOfHours, TheMostPowerThatWasToldCounts) {
  const Id strip = on(0);
  RunRead read;
  read.run = strip;
  read.reading.power = Power::kilowatts(5);
  book.tell(1, read);
  ended(strip, 15, 4);
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfHours, WhatCameOverInAMinuteIsAskedWithoutAPower) {
  const Id end = ended(on(0, std::nullopt), 1.5, 0.3, 40);
  expect_one(end, HasSubstr("no pot boils so soon"));
}

TEST_F(QuestionsOfHours, AJarFilledBeforeTheHeatWentOnIsAsked) {
  const Id run = on(60);
  const Id jar = filled(run, 30, 1, 400);
  expect_one(jar,
             HasSubstr("0.40 L are told to have come over 30 min before the heat went on."));
}

TEST_F(QuestionsOfHours, ARunThatEndsWithNothingOverIsNotAsked) {
  book.tell(2, RunEnded{on(0), {}, {}, {}, {}});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfHours, AJarFilledWhileItHeatsUpIsAskedOnce) {
  const Id run = on(0);
  filled(run, 25, 1, 100);
  EXPECT_THAT(asked(), IsEmpty());
  const Id second = filled(run, 26, 2, 8000);
  filled(run, 27, 3, 500);
  ASSERT_THAT(asked(), SizeIs(1));
  EXPECT_EQ(asked()[0].entry, second);
  EXPECT_THAT(asked()[0].why, HasSubstr("8.10 L"));
}

TEST_F(QuestionsOfHours, AnEndThatWasUpheldIsNotAskedAgainByAnEarlierReading) {
  const Id run = on(0);
  const Id end = ended(run, 200, 4);
  const auto read = [&](double minutes) {
    RunRead warm{run, {}};
    warm.reading.pot_temperature = units::Temperature::celsius(60);
    return book.tell(minutes, warm);
  };
  read(400);
  read(410);
  expect_one(end, HasSubstr("ended 3.3 h before more was told of it"));
  book.tell(420, Upheld{end, asked()[0].why, "a logger"});
  read(330);
  EXPECT_THAT(asked(), IsEmpty());
}

class QuestionsOfOrder : public QuestionsTest {
 protected:
  // Made at minute 5 000, of what was there before.
  LotName hearts() { return made_of(brought(4, 60), 5000, "hearts"); }
  LotName made_of(const Id& old, double minutes, const std::string& label) {
    const LotMade made{label, {part(old, 4)}, {}, {}, {}};
    return {book.tell(minutes, made), LotKind::spirit};
  }
};

TEST_F(QuestionsOfOrder, WhatIsTakenOfALotBeforeItWasMadeIsAsked) {
  const LotName lot = hearts();
  const Id taken = book.tell(2120, LotTaken{lot, Volume::litres(1), Gone::sample, ""});
  expect_one(taken, HasSubstr("this was done with hearts 2.0 days before that lot was made"));
  book.correct(taken, 6000, 4995, LotTaken{lot, Volume::litres(1), Gone::sample, ""});
  EXPECT_THAT(asked(), IsEmpty()) << "as far as two clocks may differ";
}

TEST_F(QuestionsOfOrder, AMakingToldLateIsAskedOnceAndNotWhatWasDoneWithIt) {
  const LotName lot = hearts();
  for (int i = 0; i < 3; ++i) {
    book.tell(2120 + i, LotTaken{lot, Volume::millilitres(20), Gone::sample, ""});
  }
  book.tell(2200, LotMade{"reduced", {{lot, Volume::litres(2)}}, {}, {}, {}});
  expect_one(lot.entry, HasSubstr("By its time, hearts was made 2.0 days after it was first "
                                  "used: its making is told late."));
  book.tell(6000, Upheld{lot.entry, asked()[0].why, ""});
  book.tell(2100, LotTaken{lot, Volume::millilitres(20), Gone::sample, ""});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfOrder, ALotMadeBeforeItsPartsIsAskedAndWhatFollowsItIsNot) {
  const LotPart all{hearts(), Volume::litres(4)};
  const Id blend =
      book.tell(4000, LotMade{"reduced", {all}, units::Mass::kilograms(1), {}, {}});
  WoodFilled filled;
  filled.part = {{blend, LotKind::spirit}, Volume::litres(2)};
  filled.in = "staves";
  book.tell(4500, filled);
  expect_one(blend, AllOf(HasSubstr("reduced is told for a time 16.7 h before hearts"),
                          HasSubstr("of which it is")));
}

TEST_F(QuestionsOfOrder, ARunChargedWithALotThatWasMadeLaterIsAsked) {
  RunBegun run;
  run.kind = RunKind::spirit;
  run.charge = litres_at_20C(4);
  run.strength = percent_at_20C(60);
  run.parts = {{hearts(), Volume::litres(4)}};
  const Id begun = book.tell(4000, run);
  expect_one(begun, HasSubstr("16.7 h before hearts, which is in the charge, came to be"));
}

TEST_F(QuestionsOfOrder, ACutBeforeItsJarsWereFilledIsAskedOnceAndWhatWasGaugedAfterItSaysHow) {
  RunBegun run;
  run.kind = RunKind::spirit;
  run.charge = litres_at_20C(20);
  run.strength = percent_at_20C(30);
  const Id begun = book.tell(0, run);
  book.tell(60, JarFilled{begun, 1, Volume::millilitres(500)});
  book.tell(300, JarGauged{begun, 1, litres_at_20C(0.5), percent_at_20C(43)});
  JarPoured pour;
  pour.jar = 1;
  pour.hearts = Volume::millilitres(500);
  const Id cut = book.tell(20, JarsAllotted{begun, {pour}});
  const Id anew = book.tell(320, JarGauged{begun, 1, litres_at_20C(0.5), percent_at_20C(75)});
  ASSERT_THAT(asked(), SizeIs(2));
  EXPECT_EQ(asked()[0].entry, anew);
  EXPECT_THAT(asked()[0].why, HasSubstr("gauged 5.0 h after the cut that poured it out"));
  EXPECT_EQ(asked()[1].entry, cut);
  EXPECT_THAT(asked()[1].why, HasSubstr("told for a time 40 min before jar 1 was filled"));
}

TEST_F(QuestionsOfOrder, WhatIsToldOfARunAfterItsEndOrOfItsJarsBeforeItIsAsked) {
  const Id run = begun(0, RunKind::spirit, 20, 30);
  RunRead warm{run, {}};
  warm.reading.pot_temperature = units::Temperature::celsius(60);
  const Id end = book.tell(300, RunEnded{run, {}, {}, {}, {}});
  book.tell(390, warm);
  EXPECT_THAT(asked(), IsEmpty()) << "written down late";
  const Id late = book.tell(2 * day, warm);
  expect_one(late,
             HasSubstr("A reading is told for a time 1.8 days after the end of its spirit"));
  book.correct(late, 2 * day, 200, warm);
  const Id filled = book.tell(3 * day, JarFilled{run, 2, Volume::millilitres(500)});
  expect_one(filled, HasSubstr("The filling of jar 2 is told for a time 2.8 days after"));
  book.correct(filled, 3 * day, 200, JarFilled{run, 2, Volume::millilitres(500)});
  // A logger that was left on, or an end told wrongly, is one question.
  const Id on = book.tell(2 * day, warm);
  book.tell(2 * day + 1, warm);
  expect_one(end, HasSubstr("The spirit run is told to have ended 1.8 days before more was "
                            "told of it"));
  book.correct(on, 2 * day, 200, warm);
  book.correct(book.entries[book.entries.size() - 2].id, 2 * day, 200, warm);
  const Id gauged =
      book.tell(-2 * day, JarGauged{run, 2, litres_at_20C(0.5), percent_at_20C(60)});
  expect_one(gauged, HasSubstr("The gauging of jar 2 is told for a time 2.0 days before"));
}

TEST_F(QuestionsOfOrder, AnEndThatWasUpheldIsNotAskedByMoreReadingsAndHidesNoJar) {
  const Id run = begun(0, RunKind::spirit, 20, 30);
  RunRead warm{run, {}};
  warm.reading.pot_temperature = units::Temperature::celsius(60);
  const Id end = book.tell(300, RunEnded{run, {}, {}, {}, {}});
  const Id first = book.tell(480, warm);
  expect_one(first, HasSubstr("A reading is told for a time 3.0 h after the end"));
  book.tell(481, Upheld{first, asked()[0].why, "how it cools"});
  EXPECT_THAT(asked(), IsEmpty());
  book.tell(540, warm);
  book.tell(600, warm);
  expect_one(end, HasSubstr("ended 4.0 h before more was told of it"));
  book.tell(601, Upheld{end, asked()[0].why, "a logger"});
  book.tell(660, warm);
  EXPECT_THAT(asked(), IsEmpty());
  const Id jar = book.tell(3 * day, JarFilled{run, 2, Volume::millilitres(500)});
  expect_one(jar, HasSubstr("The filling of jar 2 is told for a time 2.8 days after the end"));
}

TEST_F(QuestionsOfOrder, AHeatToldADayLateIsAskedAndNotTheRestOfItsRun) {
  const Id run = begun(day, RunKind::spirit, 20, 30);
  RunRead warm{run, {}};
  warm.reading.pot_temperature = units::Temperature::celsius(80);
  const Id first = book.tell(60, warm);
  expect_one(first,
             HasSubstr("A reading is told for a time 23.0 h before the heat of its run"));
  book.tell(70, warm);
  book.tell(90, JarFilled{run, 1, Volume::millilitres(500)});
  book.tell(400, JarGauged{run, 1, litres_at_20C(0.5), percent_at_20C(70)});
  book.tell(300, RunEnded{run, {}, {}, {}, {}});
  expect_one(run,
             HasSubstr("The heat of the run is told to have gone on 23.0 h after the first "
                       "that was told of it"));
  RunBegun told;
  told.kind = RunKind::spirit;
  told.charge = litres_at_20C(20);
  told.strength = percent_at_20C(30);
  book.correct(run, day + 1, 0, told);
  EXPECT_THAT(asked(), IsEmpty());
  EXPECT_THAT(house.batches.at(*book.batch).runs[0].readings, SizeIs(2));
}

TEST_F(QuestionsOfOrder, AnEndPressedTheNextMorningIsAskedAndNotTheNextHeat) {
  const Id strip = begun(0, RunKind::strip, 20, 8);
  RunRead warm{strip, {}};
  warm.reading.pot_temperature = units::Temperature::celsius(95);
  book.tell(300, warm);
  begun(1200, RunKind::spirit, 20, 30);
  const Id end = book.tell(1230, RunEnded{strip, litres_at_20C(4), percent_at_20C(30), {}, {}});
  expect_one(end, HasSubstr("The strip is told to have ended 15.5 h after the last"));
}

TEST_F(QuestionsOfOrder, AnEndToldAMonthLateIsAskedAndNoneOfWhatWasDoneInThatMonth) {
  const Id strip = begun(0, RunKind::strip, 20, 8);
  const Id end =
      book.tell(31 * day, RunEnded{strip, litres_at_20C(4), percent_at_20C(35), {}, {}});
  const Id next =
      begun(2 * day, RunKind::spirit, 4, 35, {}, {part(end, 4, LotKind::low_wines)});
  book.tell(2 * day + 300, JarFilled{next, 1, Volume::millilitres(500)});
  expect_one(end, HasSubstr("The strip is told to have ended 31.0 days after the last that was "
                            "told of it."));
  book.tell(32 * day, Upheld{end, asked()[0].why, "it stood"});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfOrder, ARunThatStoodAndWasTakenUpAgainEndsUnasked) {
  const Id run = begun(0, RunKind::spirit, 20, 30);
  RunRead on{run, {}};
  on.reading.pot_temperature = units::Temperature::celsius(80);
  book.tell(6 * day, on);
  const Id end = book.tell(6 * day + 200, RunEnded{run, {}, {}, {}, {}});
  EXPECT_THAT(asked(), IsEmpty());
  // Told the day after, and the pot was charged meanwhile.
  book.correct(end, 9 * day, 7 * day + 300, RunEnded{run, {}, {}, {}, {}});
  EXPECT_THAT(asked(), IsEmpty());
  begun(6 * day + 600, RunKind::spirit, 20, 30);
  expect_one(end, HasSubstr("ended 29.0 h after the last that was told of it."));
}

TEST_F(QuestionsOfOrder, StockThatIsWrittenDownOnceItWasUsedIsNotAsked) {
  const Id old =
      book.tell(5000, LotBrought{"old", LotKind::hearts, litres_at_20C(9), percent_at_20C(60)});
  begun(0, RunKind::spirit, 4, 60, {}, {part(old, 4)});
  made_of(old, 2, "reduced");
  book.tell(3, LotTaken{{old, LotKind::hearts}, Volume::litres(1), Gone::sample, ""});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfOrder, LowWinesWereMadeWhenTheirStripEndedWheneverTheyWereGauged) {
  const Id strip = begun(0, RunKind::strip, 20, 8);
  const Id end = book.tell(200, RunEnded{strip, {}, {}, {}, {}});
  begun(1000, RunKind::spirit, 4, 30, {}, {part(end, 4, LotKind::low_wines)});
  book.tell(1030, LotGauged{{end, LotKind::low_wines}, litres_at_20C(4), percent_at_20C(30)});
  EXPECT_THAT(asked(), IsEmpty());
}

TEST_F(QuestionsOfHours, LowWinesThatWereGaugedLaterAreAskedWhereThatWasTold) {
  const Id end = book.tell(40, RunEnded{on(0), {}, {}, {}, {}});
  // 3 L of pure alcohol and the warming take well over 80 min by 2 kW; so soon it is a slip.
  const Id gauged = book.tell(
      1000, LotGauged{{end, LotKind::low_wines}, litres_at_20C(19), percent_at_20C(8)});
  expect_one(gauged, HasSubstr("19.00 L are told to have come over 40 min after"));
}

TEST_F(QuestionsOfOrder, WhatTopsUpMayBeYoungerThanTheWoodsSpiritButMustBeThere) {
  WoodFilled filled;
  filled.part = {made_of(brought(8, 60), 10, "cask spirit"), Volume::litres(4)};
  filled.in = "cask 1";
  const LotName cask{book.tell(20, filled), LotKind::spirit};
  const LotPart young{hearts(), Volume::litres(1)};
  book.tell(6000, WoodTopped{cask, young});
  EXPECT_THAT(asked(), IsEmpty());
  // Told on the page of another batch, it is asked there.
  const auto here = book.batch;
  book.batch = id_at(1, 201);
  const Id early = book.tell(3000, WoodTopped{cask, young});
  expect_one(early, HasSubstr("this was done with hearts 33.3 h before"));
  book.batch = here;
  EXPECT_THAT(asked(), IsEmpty());
}

}  // namespace
}  // namespace lynearm::journal
