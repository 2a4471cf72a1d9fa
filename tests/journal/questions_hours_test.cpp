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

}  // namespace
}  // namespace lynearm::journal
