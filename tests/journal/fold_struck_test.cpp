// What hangs on an entry that was struck out, or that never came: a run stands without the lot
// of its charge, what was told of a struck run goes with it, and all is as it was when the
// strike is struck.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "spirit/lot.hpp"

namespace lynearm::journal {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;
using units::Volume;

class Struckness : public testing::Test {
 protected:
  Book book;
  HouseState house;

  const BatchState& folded() {
    house = fold(book.entries);
    return house.batches.at(*book.batch);
  }
  RunBegun charge(double litres) {
    RunBegun begun;
    begun.charge = litres_at_20C(litres);
    return begun;
  }
  Id reading(double minutes, const Id& of) {
    RunRead told;
    told.run = of;
    told.reading.head_temperature = units::Temperature::celsius(88);
    return book.tell(minutes, told);
  }
  // Feints brought in, and a run that holds them, with a reading and a jar.
  Id feints, run;
  void a_run_of_feints() {
    feints = book.tell(1, LotBrought{"feints of before", LotKind::feints, litres_at_20C(2),
                                     percent_at_20C(45)});
    RunBegun begun = charge(12);
    begun.parts = {{{feints, LotKind::feints}, Volume::litres(2)}};
    run = book.tell(10, begun);
    reading(30, run);
    book.tell(40, JarFilled{run, 1, Volume::millilitres(500)});
  }
};

TEST_F(Struckness, ARunStandsWhenTheLotOfItsChargeIsStruck) {
  a_run_of_feints();
  book.correct(feints, 60, 1, Struck{});
  const BatchState& of = folded();
  ASSERT_THAT(of.runs, SizeIs(1));
  EXPECT_FALSE(of.runs[0].charge_known);
  EXPECT_NEAR(of.runs[0].charge_volume.litres(), 12.0, 1e-9);
  EXPECT_THAT(of.runs[0].readings, SizeIs(1));
  EXPECT_THAT(of.runs[0].jars, SizeIs(1));
  ASSERT_THAT(of.puzzles, SizeIs(1));
  EXPECT_EQ(of.puzzles[0].entry, run);
  EXPECT_THAT(of.puzzles[0].why, HasSubstr("the run stands"));
}

TEST_F(Struckness, TheRunIsAsItWasWhenTheLotStandsAgain) {
  a_run_of_feints();
  const RunState before = folded().runs.at(0);
  const Id strike = book.correct(feints, 60, 1, Struck{});
  book.correct(strike, 61, 1, Struck{});
  const BatchState& of = folded();
  ASSERT_TRUE(of.runs.at(0).charge_known);
  EXPECT_EQ(of.runs[0].charge.ethanol.kilograms(), before.charge.ethanol.kilograms());
  EXPECT_THAT(of.puzzles, IsEmpty());
}

TEST_F(Struckness, AGaugedChargeIsKnownWithoutItsLots) {
  a_run_of_feints();
  RunBegun gauged = charge(12);
  gauged.parts = {{{feints, LotKind::feints}, Volume::litres(2)}};
  gauged.strength = percent_at_20C(27);
  book.correct(run, 50, 10, gauged);
  book.correct(feints, 60, 1, Struck{});
  const BatchState& of = folded();
  ASSERT_TRUE(of.runs.at(0).charge_known);
  EXPECT_NEAR(spirit::strength(of.runs[0].charge).percent(), 27.0, 1e-9);
}

TEST_F(Struckness, RunsKeepTheOrderOfTheirTimes) {
  a_run_of_feints();
  const Id later = book.tell(500, charge(10));
  book.correct(feints, 600, 1, Struck{});
  const BatchState& of = folded();
  ASSERT_THAT(of.runs, SizeIs(2));
  EXPECT_EQ(of.runs[0].told.entry, run);
  EXPECT_EQ(of.runs[1].told.entry, later);
}

TEST_F(Struckness, WhatWasToldOfAStruckRunGoesWithIt) {
  a_run_of_feints();
  book.correct(run, 60, 10, Struck{});
  const BatchState& of = folded();
  EXPECT_THAT(of.runs, IsEmpty());
  EXPECT_THAT(of.puzzles, IsEmpty());
  EXPECT_EQ(of.struck, 3U);  // the run, its reading, its jar
  const LotState* const left = lot_named(house, {feints, LotKind::feints});
  ASSERT_NE(left, nullptr);
  EXPECT_NEAR(spirit::volume(left->left).litres(), 2.0, 1e-9);
}

TEST_F(Struckness, WhatWasMadeOfALotOfAStruckRunIsStillAskedAbout) {
  const Id strip = book.tell(10, charge(20));
  RunEnded end;
  end.run = strip;
  const Id ended = book.tell(90, end);
  book.tell(100, LotTaken{{ended, LotKind::low_wines}, Volume::litres(1), Gone::sample, ""});
  book.correct(strip, 120, 10, Struck{});
  EXPECT_THAT(folded().puzzles, SizeIs(1));
}

TEST_F(Struckness, ABatchBegunByMistakeIsInNobodysHands) {
  const Id begun = book.tell(0, BatchBegun{"Tern 9", "", true});
  book.tell(1, BatchPlanned{"recipe", "kit"});
  EXPECT_FALSE(folded().closed);
  const Id strike = book.correct(begun, 5, 0, Struck{});
  EXPECT_TRUE(folded().closed);
  EXPECT_EQ(folded().name, "Tern 9 (struck out)");
  book.correct(strike, 6, 0, Struck{});
  EXPECT_FALSE(folded().closed);
  EXPECT_EQ(folded().name, "Tern 9");
}

TEST_F(Struckness, AStillThatIsOnStaysInSightThoughItsBatchIsStruck) {
  const Id begun = book.tell(0, BatchBegun{"Tern 9", "", true});
  book.tell(1, charge(12));
  book.correct(begun, 5, 0, Struck{});
  EXPECT_FALSE(folded().closed);
}

TEST_F(Struckness, TakenToTheMillilitreALotIsUsedUp) {
  const Id lot = book.tell(1, LotBrought{"feints of before", LotKind::feints,
                                         litres_at_20C(1.1376), percent_at_20C(40.5)});
  book.tell(2, LotTaken{{lot, LotKind::feints}, Volume::litres(1.137), Gone::given, ""});
  folded();
  EXPECT_EQ(lot_named(house, {lot, LotKind::feints})->left.mass().kilograms(), 0.0);
}

}  // namespace
}  // namespace lynearm::journal
