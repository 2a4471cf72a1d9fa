#include "journal/fold.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "journal/account.hpp"
#include "journal/book.hpp"
#include "journal/meaning.hpp"
#include "spirit/strength.hpp"
#include "wort/gravity.hpp"
#include "wort/refractometer.hpp"
#include "wort/saccharometer.hpp"

namespace lynearm::journal {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using units::Temperature;
using units::Volume;

class FoldTest : public testing::Test {
 protected:
  Book book;
  HouseState house;

  const BatchState& folded() {
    house = fold(book.entries);
    return house.batches.at(*book.batch);
  }
  const LotState& lot(const Id& entry, LotKind kind) {
    const LotState* const found = lot_named(house, {entry, kind});
    if (found == nullptr) throw std::logic_error("no such lot");
    return *found;
  }
  std::vector<std::string> whys(const BatchState& of) {
    std::vector<std::string> found;
    for (const Puzzle& puzzle : of.puzzles) found.push_back(puzzle.why);
    return found;
  }
  RunBegun spirit_charge(double litres) {
    RunBegun begun;
    begun.charge = litres_at_20C(litres);
    return begun;
  }
  Id brought(double minutes, double litres, double percent) {
    return book.tell(minutes, LotBrought{"feints of before", LotKind::feints,
                                         litres_at_20C(litres), percent_at_20C(percent)});
  }
  static LotPart part(const Id& entry, LotKind kind, double litres) {
    return {{entry, kind}, Volume::litres(litres)};
  }
  RunRead read(const Id& run) {
    RunRead reading;
    reading.run = run;
    reading.reading.head_temperature = Temperature::celsius(88);
    return reading;
  }
};

// ---- mash and ferment

TEST_F(FoldTest, AWortIsBroughtTo20DegreesAndItsExtractCounted) {
  book.tell(1, WortDrawn{"first runnings",
                         {Volume::litres(10), Temperature::celsius(60)},
                         {1.060, GravityScale::specific_gravity, Temperature::celsius(40)}});
  const MashState& mash = folded().mash;
  ASSERT_EQ(mash.worts.size(), 1U);
  const auto gravity =
      wort::true_gravity(units::SpecificGravity::ratio(1.060), Temperature::celsius(40));
  EXPECT_DOUBLE_EQ(mash.worts[0].gravity.ratio(), gravity.ratio());
  // Mass does not depend on temperature: that of the warm wort by its warm density.
  const auto extract = wort::plato(gravity);
  const double mass_kg =
      10e-3 * wort::density(extract, Temperature::celsius(60)).kilograms_per_cubic_metre();
  EXPECT_NEAR(mash.worts[0].extract.kilograms(), mass_kg * extract.degrees() / 100.0, 1e-9);
  EXPECT_NEAR(mash.extract().kilograms(), mash.worts[0].extract.kilograms(), 1e-12);
}

TEST_F(FoldTest, TheLastGravityTellsTheWashHoweverLateItArrived) {
  book.tell(1,
            Pitched{litres_at_20C(60), gravity_at_20C(1.080), "yeast", units::Mass::grams(60)});
  book.tell(900, FermentRead{gravity_at_20C(0.995), {}});
  book.tell(500, FermentRead{gravity_at_20C(1.030), {}});
  book.tell(1200, Racked{litres_at_20C(57), Volume::litres(3)});
  const FermentState& ferment = folded().ferment;
  ASSERT_TRUE(ferment.wash);
  EXPECT_DOUBLE_EQ(ferment.wash->gravity.ratio(), 0.995);
  EXPECT_NEAR(ferment.wash->volume.litres(), 57.0, 1e-9);
  const auto strength =
      wash_strength(units::SpecificGravity::ratio(1.080), units::SpecificGravity::ratio(0.995));
  EXPECT_NEAR(ferment.wash->strength.percent(), strength.percent(), 1e-9);
  EXPECT_NEAR(strength.percent(), 12.029, 0.001);  // a regression value; Balling says 11.27
  EXPECT_NEAR(ferment.wash->pure_alcohol.litres(), 57.0 * strength.fraction(), 1e-9);
}

TEST_F(FoldTest, ARefractometerWaitsForThePitchAndIsCorrectedForAlcohol) {
  const GravityRead brix{9.0, GravityScale::brix, at_20C};
  book.tell(1, FermentRead{brix, {}});
  EXPECT_THAT(whys(folded()), ElementsAre(HasSubstr("the wort at the pitch is not known")));
  book.tell(2, Pitched{litres_at_20C(60), gravity_at_20C(1.080), "", {}});
  const FermentState& ferment = folded().ferment;
  EXPECT_THAT(whys(house.batches.at(*book.batch)), IsEmpty());
  ASSERT_EQ(ferment.points.size(), 1U);
  EXPECT_TRUE(ferment.points[0].by_refractometer);
  const auto expected = wort::wash_of_original(
      wort::plato(units::SpecificGravity::ratio(1.080)), wort::Brix::degrees(9.0));
  EXPECT_NEAR(ferment.points[0].gravity->ratio(), expected.gravity.ratio(), 1e-12);
}

TEST_F(FoldTest, AGravityThatNoWashCanHaveIsAPuzzleAndLeavesTheWash) {
  book.tell(1, Pitched{litres_at_20C(60), gravity_at_20C(1.080), "", {}});
  book.tell(2, FermentRead{gravity_at_20C(1.010), {}});
  book.tell(3, FermentRead{GravityRead{0.92, GravityScale::specific_gravity, at_20C}, {}});
  EXPECT_EQ(folded().puzzles.size(), 1U);
  EXPECT_EQ(house.batches.at(*book.batch).ferment.points.size(), 1U);
  EXPECT_DOUBLE_EQ(house.batches.at(*book.batch).ferment.wash->gravity.ratio(), 1.010);
}

// ---- the charge

TEST_F(FoldTest, AChargeOfLotsIsMadeUpWithWaterByTheDensityOfTheWhole) {
  const Id feints = brought(1, 8, 45);
  RunBegun begun = spirit_charge(12);
  begun.parts = {part(feints, LotKind::feints, 8)};
  book.tell(2, begun);
  const RunState& run = folded().runs.at(0);
  ASSERT_TRUE(run.charge_known);
  EXPECT_NEAR(spirit::volume(run.charge).litres(), 12.0, 1e-9);
  EXPECT_NEAR(run.charge_volume.litres(), 12.0, 1e-9);
  EXPECT_NEAR(spirit::pure_alcohol(run.charge).litres(), 8 * 0.45, 1e-9);
  // 8 L and 4 L of water would be less than 12 L: the mixture contracts.
  const spirit::Lot side_by_side =
      spirit::lot(Volume::litres(8), units::VolumeStrength::percent(45)) +
      spirit::lot(Volume::litres(4), {});
  EXPECT_LT(spirit::volume(side_by_side).litres(), 11.97);
  EXPECT_GT(run.charge.water, side_by_side.water);
  EXPECT_NEAR(spirit::volume(lot(feints, LotKind::feints).left).litres(), 0.0, 1e-12);
}

TEST_F(FoldTest, WashAndLotsBothCountInACharge) {
  const Id feints = brought(1, 2, 45);
  book.tell(2, Pitched{litres_at_20C(60), gravity_at_20C(1.080), "", {}});
  book.tell(3, FermentRead{gravity_at_20C(0.995), {}});
  RunBegun begun = spirit_charge(22);
  begun.kind = RunKind::strip;
  begun.wash = Volume::litres(20);
  begun.parts = {part(feints, LotKind::feints, 2)};
  book.tell(4, begun);
  const BatchState& of = folded();
  const RunState& run = of.runs.at(0);
  EXPECT_NEAR(spirit::pure_alcohol(run.charge).litres(),
              20 * of.ferment.wash->strength.fraction() + 2 * 0.45, 1e-9);
  EXPECT_NEAR(run.charge_volume.litres(), 22.0, 0.03);
}

TEST_F(FoldTest, AGaugedChargeIsWhatItIsGauged) {
  RunBegun begun = spirit_charge(20);
  begun.strength = percent_at_20C(27);
  book.tell(1, begun);
  EXPECT_NEAR(spirit::strength(folded().runs.at(0).charge).percent(), 27.0, 1e-9);
}

TEST_F(FoldTest, AChargeThatCannotBeReadIsStillARun) {
  RunBegun begun = spirit_charge(20);
  begun.charge.at = Temperature::celsius(60);  // beyond the density of spirit
  begun.strength = StrengthRead{{27, spirit::Scale::percent_vol}, Temperature::celsius(60)};
  const Id run = book.tell(1, begun);
  book.tell(2, read(run));
  const BatchState& of = folded();
  ASSERT_EQ(of.runs.size(), 1U);
  EXPECT_FALSE(of.runs[0].charge_known);
  // Water shrinks from 60 to 20 °C by 1.5 %.
  EXPECT_NEAR(of.runs[0].charge_volume.litres(), 19.70, 0.02);
  EXPECT_EQ(of.runs[0].readings.size(), 1U);
  EXPECT_THAT(whys(of), ElementsAre(HasSubstr("60.00 °C")));
}

// ---- beside the still

TEST_F(FoldTest, AReadingCountsFromTheRunsNought) {
  const Id run = book.tell(10, spirit_charge(20));
  book.tell(40, read(run));
  book.tell(25, read(run));
  const RunState& of = folded().runs.at(0);
  ASSERT_EQ(of.readings.size(), 2U);
  EXPECT_DOUBLE_EQ(of.readings[0].reading.at.minutes(), 15.0);
  EXPECT_DOUBLE_EQ(of.readings[1].reading.at.minutes(), 30.0);
}

TEST_F(FoldTest, AReadingBeforeTheHeatIsLeftOutAndOneOfMonthsAfterIsAPuzzle) {
  const Id run = book.tell(20, spirit_charge(20));
  book.tell(9, read(run));
  book.tell(20 + 61 * 24 * 60, read(run));
  EXPECT_EQ(folded().puzzles.size(), 1U);
  const RunState& of = house.batches.at(*book.batch).runs.at(0);
  EXPECT_THAT(of.readings, IsEmpty());
  ASSERT_EQ(of.before_heat.size(), 1U);
  EXPECT_EQ(of.before_heat[0].at, minute(9));
}

TEST_F(FoldTest, AReadingAMinuteBeforeTheHeatIsByAnotherClockAndCountsAtNought) {
  const Id run = book.tell(20, spirit_charge(20));
  book.tell(19, read(run));
  EXPECT_THAT(folded().puzzles, IsEmpty());
  const auto& readings = house.batches.at(*book.batch).runs.at(0).readings;
  ASSERT_EQ(readings.size(), 1U);
  EXPECT_EQ(readings[0].reading.at, units::Duration{});
}

TEST_F(FoldTest, StopsAndStartsAlternateAsAFollowerNeedsThem) {
  const Id run = book.tell(10, spirit_charge(20));
  const auto event = [&](double minutes, still::Event what) {
    RunRead reading = read(run);
    reading.reading.event = what;
    book.tell(minutes, reading);
  };
  event(20, still::Event::stopped);
  event(30, still::Event::stopped);
  event(40, still::Event::resumed);
  event(50, still::Event::resumed);
  const BatchState& of = folded();
  EXPECT_EQ(of.runs[0].standing, RunStanding::running);
  still::Record record;
  for (const RunPoint& point : of.runs[0].readings) record.readings.push_back(point.reading);
  EXPECT_EQ(record.readings.size(), 4U);
  EXPECT_THAT(still::faults_of(record), IsEmpty());
  EXPECT_EQ(of.puzzles.size(), 2U);
}

TEST_F(FoldTest, ARunOfAnotherBatchIsAPuzzle) {
  const Id run = book.tell(10, spirit_charge(20));
  const Id first = *book.batch;
  book.batch = id_at(0, 201);
  book.tell(20, read(run));
  EXPECT_THAT(whys(folded()), ElementsAre(HasSubstr("a run of another batch")));
  EXPECT_THAT(house.batches.at(first).runs.at(0).readings, IsEmpty());
}

TEST_F(FoldTest, TheLowWinesOfAStripAreALotWithItsParents) {
  const Id feints = brought(1, 2, 45);
  RunBegun begun = spirit_charge(22);
  begun.kind = RunKind::strip;
  begun.parts = {part(feints, LotKind::feints, 2)};
  const Id run = book.tell(4, begun);
  const Id end = book.tell(90, RunEnded{run, litres_at_20C(6), percent_at_20C(28), {}, {}});
  folded();
  const LotState& low_wines = lot(end, LotKind::low_wines);
  EXPECT_NEAR(spirit::pure_alcohol(low_wines.made).litres(), 6 * 0.28, 1e-9);
  EXPECT_THAT(low_wines.parents, ElementsAre(LotName{feints, LotKind::feints}));
  EXPECT_EQ(low_wines.generation, 1);
}

TEST_F(FoldTest, AnEndWhoseStrengthCannotBeReadIsStillAnEnd) {
  const Id run = book.tell(4, spirit_charge(22));
  book.tell(90, RunEnded{run, litres_at_20C(6), percent_at_20C(150), {}, {}});
  const RunState& of = folded().runs.at(0);
  EXPECT_EQ(of.standing, RunStanding::ended);
  EXPECT_FALSE(of.collected);
  EXPECT_TRUE(of.collected_read);
  EXPECT_EQ(house.batches.at(*book.batch).puzzles.size(), 1U);
}

TEST_F(FoldTest, AStripIsEndedWarmAndItsLowWinesAreGaugedLater) {
  const Id feints = brought(1, 2, 45);
  RunBegun begun = spirit_charge(22);
  begun.kind = RunKind::strip;
  begun.parts = {part(feints, LotKind::feints, 2)};
  const Id run = book.tell(4, begun);
  const Id end = book.tell(90, RunEnded{run, {}, {}, {}, {}});
  EXPECT_EQ(folded().runs.at(0).standing, RunStanding::ended);
  EXPECT_THAT(house.lots, testing::SizeIs(1));
  // By a phone whose clock is behind, they are charged before they are gauged.
  const LotName name{end, LotKind::low_wines};
  RunBegun next = spirit_charge(3);
  next.strength.reset();
  next.parts = {{name, units::Volume::litres(3)}};
  book.tell(100, next);
  const Id gauging = book.tell(120, LotGauged{name, litres_at_20C(6), percent_at_20C(28)});
  const BatchState& of = folded();
  EXPECT_THAT(whys(of), IsEmpty());
  const LotState& low_wines = lot(end, LotKind::low_wines);
  EXPECT_EQ(low_wines.told.entry, gauging);
  EXPECT_NEAR(spirit::pure_alcohol(low_wines.made).litres(), 6 * 0.28, 1e-9);
  EXPECT_NEAR(spirit::volume(low_wines.left).litres(), 3.0, 1e-9);
  EXPECT_THAT(low_wines.parents, ElementsAre(LotName{feints, LotKind::feints}));
  EXPECT_EQ(low_wines.generation, 1);
  ASSERT_TRUE(of.runs.at(0).collected);  // so that the account knows of it
}

TEST_F(FoldTest, ASecondEndIsToldInASentence) {
  const Id run = book.tell(4, spirit_charge(22));
  book.tell(90, RunEnded{run, {}, {}, {}, {}});
  book.tell(95, RunEnded{run, {}, {}, {}, {}});
  EXPECT_THAT(whys(folded()), ElementsAre(testing::StartsWith("The run had ended already")));
}

// ---- jars and the cut

class CutTest : public FoldTest {
 protected:
  Id run;
  void SetUp() override { run = book.tell(10, spirit_charge(20)); }
  void gauge(double minutes, int jar, double litres, double percent) {
    book.tell(minutes, JarGauged{run, jar, litres_at_20C(litres), percent_at_20C(percent)});
  }
  static JarPoured hearts(int jar, double mL) {
    JarPoured poured;
    poured.jar = jar;
    poured.hearts = Volume::millilitres(mL);
    return poured;
  }
};

TEST_F(CutTest, PoursJarsIntoLotsAndKeepsWhatIsLeft) {
  gauge(20, 1, 0.5, 74);
  gauge(30, 2, 0.5, 70);
  JarPoured split = hearts(2, 300);
  split.feints = Volume::millilitres(100);
  const Id cut = book.tell(100, JarsAllotted{run, {hearts(1, 500), split}});
  const BatchState& of = folded();
  EXPECT_THAT(of.puzzles, IsEmpty());
  EXPECT_NEAR(spirit::pure_alcohol(lot(cut, LotKind::hearts).made).litres(),
              0.5 * 0.74 + 0.3 * 0.70, 1e-9);
  EXPECT_NEAR(spirit::pure_alcohol(lot(cut, LotKind::feints).made).litres(), 0.1 * 0.70, 1e-9);
  EXPECT_EQ(lot(cut, LotKind::feints).generation, 1);
  EXPECT_EQ(lot(cut, LotKind::hearts).generation, 0);
  EXPECT_EQ(lot_named(house, {cut, LotKind::apart}), nullptr);
  EXPECT_EQ(of.runs[0].jars.at(1).left->mass().kilograms(), 0.0);
  EXPECT_NEAR(spirit::volume(*of.runs[0].jars.at(2).left).millilitres(), 100.0, 1e-6);
}

TEST_F(CutTest, WaitsForTheJarsToBeGauged) {
  book.tell(15, JarsAllotted{run, {hearts(1, 500), hearts(2, 500)}});
  gauge(20, 1, 0.5, 74);
  EXPECT_THAT(whys(folded()), ElementsAre("Jar 2 of that run is not gauged."));
  gauge(30, 2, 0.5, 70);
  EXPECT_TRUE(folded().runs[0].allotted);
  EXPECT_THAT(house.batches.at(*book.batch).puzzles, IsEmpty());
}

TEST_F(CutTest, MoreThanAJarHoldsIsWhatItHolds) {
  gauge(20, 1, 0.5, 74);
  JarPoured poured = hearts(1, 600);
  poured.feints = Volume::millilitres(200);
  const Id cut = book.tell(100, JarsAllotted{run, {poured}});
  EXPECT_THAT(whys(folded()), ElementsAre(HasSubstr("Jar 1 holds 500 mL, and 800 mL")));
  EXPECT_NEAR(spirit::volume(lot(cut, LotKind::hearts).made).millilitres(), 375.0, 1e-6);
  EXPECT_NEAR(spirit::volume(lot(cut, LotKind::feints).made).millilitres(), 125.0, 1e-6);
}

TEST_F(CutTest, OneJarTwiceOrASecondCutMakesNothing) {
  gauge(20, 1, 0.5, 74);
  book.tell(100, JarsAllotted{run, {hearts(1, 200), hearts(1, 300)}});
  EXPECT_FALSE(folded().runs[0].allotted);
  EXPECT_THAT(house.lots, IsEmpty());
  book.tell(101, JarsAllotted{run, {hearts(1, 200)}});
  book.tell(102, JarsAllotted{run, {hearts(1, 300)}});
  EXPECT_EQ(folded().puzzles.size(), 2U);
  EXPECT_EQ(house.lots.size(), 1U);
}

TEST_F(CutTest, ACorrectedGaugingChangesTheLots) {
  gauge(20, 1, 0.5, 47);
  const Id wrong = book.last().id;
  const Id cut = book.tell(100, JarsAllotted{run, {hearts(1, 500)}});
  book.correct(wrong, 101, 20, JarGauged{run, 1, litres_at_20C(0.5), percent_at_20C(74)});
  folded();
  EXPECT_NEAR(spirit::strength(lot(cut, LotKind::hearts).made).percent(), 74.0, 1e-9);
}

TEST_F(CutTest, AJarThatWasPouredOutIsNotGaugedAgain) {
  gauge(20, 1, 0.5, 74);
  book.tell(100, JarsAllotted{run, {hearts(1, 500)}});
  gauge(200, 1, 0.1, 60);
  EXPECT_THAT(whys(folded()), ElementsAre(HasSubstr("after the cut that poured it out")));
  EXPECT_NEAR(spirit::volume(*house.batches.at(*book.batch).runs[0].jars.at(1).lot).litres(),
              0.5, 1e-9);
}

TEST_F(CutTest, AGaugingThatCannotBeReadMakesNoJar) {
  gauge(20, 1, 0.5, 150);
  EXPECT_THAT(folded().runs[0].jars, IsEmpty());
  EXPECT_EQ(house.batches.at(*book.batch).puzzles.size(), 1U);
}

// ---- lots

TEST_F(FoldTest, WhatIsTakenOutOfALotThatIsMadeLaterIsTakenWhenItIsMade) {
  // The laptop that told of the lot is an hour behind and nobody knows it.
  const Id later = id_at(60, 3);
  book.tell(1, LotTaken{{later, LotKind::feints}, Volume::litres(1), Gone::sample, ""});
  book.tell(2, LotGauged{{later, LotKind::feints}, litres_at_20C(5), percent_at_20C(45)});
  ASSERT_EQ(brought(60, 8, 45), later);
  book.tell(61, LotTaken{{later, LotKind::feints}, Volume::litres(2), Gone::spilt, ""});
  folded();
  const LotState& of = lot(later, LotKind::feints);
  EXPECT_NEAR(spirit::volume(of.left).litres(), 3.0, 1e-9);
  ASSERT_EQ(of.uses.size(), 3U);
  EXPECT_EQ(of.uses[0].where, "sample");
  EXPECT_EQ(of.uses[1].where, "gauging");
  EXPECT_EQ(of.uses[2].where, "spilt");
}

TEST_F(FoldTest, ALotThatNoEntryMadeIsAPuzzleOnce) {
  const Id note = book.tell(1, Note{"nothing", {}});
  book.tell(2, LotTaken{{note, LotKind::spirit}, Volume::litres(1), Gone::sample, ""});
  EXPECT_THAT(whys(folded()),
              ElementsAre("It speaks of a run or a lot that is not in the journal."));
}

TEST_F(FoldTest, MoreThanThereIsIsAllOfItAndAPuzzle) {
  const Id feints = brought(1, 2, 45);
  book.tell(2, LotTaken{{feints, LotKind::feints}, Volume::litres(3), Gone::spilt, ""});
  EXPECT_THAT(whys(folded()), ElementsAre(HasSubstr("3.000 L are taken out of 2.000 L")));
  EXPECT_EQ(lot(feints, LotKind::feints).left.mass().kilograms(), 0.0);
}

TEST_F(FoldTest, ALittleMoreThanThereIsIsAllOfIt) {
  const Id feints = brought(1, 2, 45);
  book.tell(2, LotTaken{{feints, LotKind::feints}, Volume::litres(2.05), Gone::given, ""});
  EXPECT_THAT(whys(folded()), IsEmpty());
  EXPECT_EQ(lot(feints, LotKind::feints).left.mass().kilograms(), 0.0);
}

TEST_F(FoldTest, AReductionIsByMassAndACheckReadingOfStrengthAloneKeepsTheMass) {
  const Id hearts =
      book.tell(1, LotBrought{"hearts", LotKind::hearts, litres_at_20C(4), percent_at_20C(68)});
  LotMade made;
  made.name = "reduced";
  made.parts = {part(hearts, LotKind::hearts, 4)};
  made.water = units::Mass::kilograms(1.0);
  made.strength = percent_at_20C(54.8);
  const Id reduced = book.tell(2, made);
  folded();
  const LotState& of = lot(reduced, LotKind::spirit);
  const double mass_kg =
      spirit::lot(Volume::litres(4), units::VolumeStrength::percent(68)).mass().kilograms() + 1;
  EXPECT_NEAR(of.made.mass().kilograms(), mass_kg, 1e-9);
  EXPECT_NEAR(of.left.mass().kilograms(), mass_kg, 1e-9);
  EXPECT_NEAR(spirit::strength(of.left).percent(), 54.8, 1e-6);
  EXPECT_TRUE(of.measured);
  EXPECT_TRUE(of.reckoned);
  const spirit::Lot by_parts =
      spirit::lot(Volume::litres(4), units::VolumeStrength::percent(68)) +
      spirit::Lot{{}, units::Mass::kilograms(1.0)};
  EXPECT_NEAR(spirit::strength(of.made).percent(), spirit::strength(by_parts).percent(), 1e-9);
  ASSERT_TRUE(gauged_when_made(of).has_value());
  EXPECT_NEAR(spirit::strength(*gauged_when_made(of)).percent(), 54.8, 1e-6);
}

TEST_F(FoldTest, AResidueIsToldOfALotUntilItIsGaugedAnewWithoutOne) {
  const Id hearts =
      book.tell(1, LotBrought{"hearts", LotKind::hearts, litres_at_20C(4), percent_at_20C(68)});
  const auto residue = units::MassConcentration::grams_per_litre(1.5);
  LotMade made;
  made.name = "reduced";
  made.parts = {part(hearts, LotKind::hearts, 4)};
  made.water = units::Mass::kilograms(1.0);
  made.strength = percent_at_20C(54.8);
  made.residue = residue;
  const Id reduced = book.tell(2, made);
  const Id bottled =
      book.tell(3, Bottled{part(reduced, LotKind::spirit, 1), 2, Volume::litres(0.5),
                           units::VolumeStrength::percent(54.9), residue});
  folded();
  EXPECT_EQ(lot(reduced, LotKind::spirit).residue, residue);
  EXPECT_EQ(lot(bottled, LotKind::bottles).residue, residue);
  EXPECT_FALSE(lot(hearts, LotKind::hearts).reckoned);
  EXPECT_FALSE(gauged_when_made(lot(hearts, LotKind::hearts)).has_value());
  book.tell(4, LotGauged{{reduced, LotKind::spirit}, litres_at_20C(4), percent_at_20C(54.5)});
  folded();
  EXPECT_FALSE(lot(reduced, LotKind::spirit).residue.has_value());
  EXPECT_NEAR(spirit::strength(*gauged_when_made(lot(reduced, LotKind::spirit))).percent(),
              54.8 + 0.3, 0.3);  // that of its making, with what is dissolved
}

TEST_F(FoldTest, WoodIsEmptiedOnce) {
  const Id hearts =
      book.tell(1, LotBrought{"hearts", LotKind::hearts, litres_at_20C(4), percent_at_20C(60)});
  WoodFilled filled;
  filled.part = part(hearts, LotKind::hearts, 4);
  filled.in = "cask 3";
  const Id wood = book.tell(2, filled);
  const LotName on_wood{wood, LotKind::spirit};
  book.tell(3, WoodEmptied{{hearts, LotKind::hearts}, litres_at_20C(3.5), percent_at_20C(59)});
  const Id off = book.tell(1000, WoodEmptied{on_wood, litres_at_20C(3.5), percent_at_20C(59)});
  book.tell(1001, WoodEmptied{on_wood, litres_at_20C(3.5), percent_at_20C(59)});
  EXPECT_THAT(whys(folded()), ElementsAre(HasSubstr("is not on wood"),
                                          HasSubstr("taken off the wood already")));
  EXPECT_NEAR(spirit::volume(lot(off, LotKind::spirit).made).litres(), 3.5, 1e-9);
  EXPECT_EQ(lot(wood, LotKind::spirit).uses.at(0).where, "soaked and evaporated");
}

TEST_F(FoldTest, ToppingUpAddsMassesAndNothingIsLost) {
  const Id hearts =
      book.tell(1, LotBrought{"hearts", LotKind::hearts, litres_at_20C(4), percent_at_20C(60)});
  const Id strong =
      book.tell(1, LotBrought{"strong", LotKind::hearts, litres_at_20C(1), percent_at_20C(70)});
  WoodFilled filled;
  filled.part = part(hearts, LotKind::hearts, 4);
  filled.in = "cask 3";
  const LotName on_wood{book.tell(2, filled), LotKind::spirit};
  book.tell(100, WoodTopped{on_wood, part(strong, LotKind::hearts, 0.25)});
  book.tell(101, WoodTopped{on_wood, {on_wood, Volume::litres(0.1)}});
  book.tell(102, WoodTopped{{hearts, LotKind::hearts}, part(strong, LotKind::hearts, 0.1)});
  EXPECT_THAT(whys(folded()),
              ElementsAre(HasSubstr("topped up with itself"), HasSubstr("is not on wood")));
  const spirit::Lot poured =
      spirit::lot(Volume::litres(0.25), units::VolumeStrength::percent(70));
  const LotState& wood = lot(on_wood.entry, LotKind::spirit);
  EXPECT_NEAR((wood.left.ethanol - wood.made.ethanol).kilograms(), poured.ethanol.kilograms(),
              1e-12);
  EXPECT_NEAR((wood.left.water - wood.made.water).kilograms(), poured.water.kilograms(), 1e-12);
  EXPECT_THAT(wood.parents,
              ElementsAre(LotName{hearts, LotKind::hearts}, LotName{strong, LotKind::hearts}));
  book.tell(1000, WoodEmptied{on_wood, litres_at_20C(3.9), percent_at_20C(60)});
  folded();
  // Nobody is in debt for what came in.
  BatchState batch;
  batch.id = *book.batch;
  const BatchAccount told = account(house, batch);
  const auto step = std::find_if(told.steps.begin(), told.steps.end(),
                                 [](const AccountStep& s) { return s.stage == Stage::wood; });
  ASSERT_NE(step, told.steps.end());
  EXPECT_NEAR(step->in.value.litres(), 4 * 0.6 + 0.25 * 0.7, 1e-6);
  EXPECT_NEAR(step->unaccounted.value.litres(), 0.0, 1e-6);
}

TEST_F(FoldTest, TheLastLabelOfALotOfBottlesStands) {
  const Id hearts =
      book.tell(1, LotBrought{"hearts", LotKind::hearts, litres_at_20C(4), percent_at_20C(45)});
  const Id bottled =
      book.tell(2, Bottled{part(hearts, LotKind::hearts, 1), 2, Volume::litres(0.5),
                           units::VolumeStrength::percent(44.9)});
  const LotName bottles{bottled, LotKind::bottles};
  book.tell(4,
            Labelled{bottles, "Tern", units::VolumeStrength::percent(45.0), "Malt", "a-rule"});
  book.tell(3, Labelled{bottles, "Tern", units::VolumeStrength::percent(44.0), "", ""});
  book.tell(
      5, Labelled{{hearts, LotKind::hearts}, "x", units::VolumeStrength::percent(45), "", ""});
  EXPECT_THAT(whys(folded()), ElementsAre(HasSubstr("only bottles bear labels")));
  const InBottles& in = *lot(bottled, LotKind::bottles).bottles;
  ASSERT_TRUE(in.label.has_value());
  EXPECT_NEAR(in.label->strength.percent(), 45.0, 1e-12);
  EXPECT_NEAR(in.strength.percent(), 44.9, 1e-12);
  EXPECT_EQ(in.label->names_class, "Malt");
}

// ---- the rest

TEST_F(FoldTest, AKindOfANewerProgramIsKeptAsAPuzzle) {
  book.tell(1, Foreign{"sky read", 3, "{}"});
  EXPECT_THAT(whys(folded()), ElementsAre("A kind this program does not know: sky read."));
}

TEST_F(FoldTest, WhatBelongsToABatchSaysSoWithoutOne) {
  book.batch.reset();
  book.tell(1, MashTemperature{Temperature::celsius(66)});
  house = fold(book.entries);
  ASSERT_EQ(house.puzzles.size(), 1U);
  EXPECT_THAT(house.puzzles[0].why, HasSubstr("batch"));
  EXPECT_TRUE(house.batches.empty());
}

TEST_F(FoldTest, ALotIsNamedAfterItsBatchWheneverThatWasBegun) {
  const Id run = book.tell(10, spirit_charge(20));
  book.tell(20, JarGauged{run, 1, litres_at_20C(0.5), percent_at_20C(70)});
  JarPoured poured;
  poured.hearts = Volume::millilitres(400);
  poured.apart = Volume::millilitres(100);
  const Id cut = book.tell(30, JarsAllotted{run, {poured}});
  book.tell(90, BatchBegun{"Tern 8", "", true});
  folded();
  EXPECT_EQ(lot(cut, LotKind::hearts).label, "hearts of Tern 8");
  EXPECT_EQ(lot(cut, LotKind::apart).label, "spirit set apart at Tern 8");
}

TEST_F(FoldTest, StruckAndIdleEntriesAreCountedAndTold) {
  const Id one = book.tell(1, MashTemperature{Temperature::celsius(66)});
  book.correct(one, 2, 1, Struck{});
  book.correct(id_at(50, 9), 3, 1, Struck{});
  const BatchState& of = folded();
  EXPECT_EQ(of.struck, 1U);
  EXPECT_EQ(of.entries, 0U);
  EXPECT_THAT(of.puzzles, testing::SizeIs(1));
}

// How long a racked wash stood unread, where it may have gone on.
std::optional<double> unread_days(const std::vector<std::pair<double, double>>& gravities,
                                  double racked_at) {
  constexpr double day = 24 * 60;
  Book book;
  book.tell(0, Pitched{litres_at_20C(50), gravity_at_20C(1.064), "", {}});
  for (const auto& [at, gravity] : gravities) {
    book.tell(at * day, FermentRead{gravity_at_20C(gravity), {}});
  }
  book.tell(racked_at * day, Racked{litres_at_20C(46), {}});
  const HouseState house = fold(book.entries);
  const auto& wash = house.batches.at(*book.batch).ferment.wash;
  EXPECT_TRUE(wash.has_value());
  if (!wash || !wash->unread) return std::nullopt;
  return wash->unread->days();
}

TEST(WashRead, OneThatWasNotReadForDaysBeforeItsRackingSaysSoUnlessItStood) {
  EXPECT_EQ(unread_days({{2, 1.030}, {5, 0.996}}, 5.5), std::nullopt);
  EXPECT_NEAR(unread_days({{2, 1.030}, {5, 0.996}}, 9).value_or(0), 4.0, 1e-9);
  // It had come to stand when it was read last.
  EXPECT_EQ(unread_days({{4, 0.9965}, {5, 0.996}}, 9), std::nullopt);
  // A reading that cannot be of this wash is no reading of it.
  EXPECT_NEAR(unread_days({{2, 1.030}, {8.9, 1.102}}, 9).value_or(0), 7.0, 1e-9);
  // The clear wash was read.
  EXPECT_EQ(unread_days({{2, 1.030}, {9.2, 0.996}}, 9), std::nullopt);
}

}  // namespace
}  // namespace lynearm::journal
