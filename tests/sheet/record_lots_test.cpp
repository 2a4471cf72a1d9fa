// From the cut to the bottle on paper: each lot told once, by what it came from and where it
// went, and the alcohol through each stage counted once. The journal here is invented; expected
// litres of pure alcohol are volume times strength, by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "sheet/cask_book.hpp"

namespace lynearm::sheet {
namespace {

using journal::Id;
using journal::litres_at_20C;
using journal::LotKind;
using journal::percent_at_20C;
using journal::Stage;
using testing::HasSubstr;
using testing::Not;
using units::Mass;
using units::Volume;

TEST_F(RecordedLots, WhatWasPouredInIsToldAsPouredInAndNotAsGone) {
  reduce();
  mature();
  const auto row = lot_row("the second, in cask 3");
  ASSERT_EQ(row.size(), 6U);
  EXPECT_EQ(row[1], "the second; bought");
  EXPECT_THAT(row[4], HasSubstr("220 mL poured in; "));
  EXPECT_THAT(row[4], Not(HasSubstr("-")));
  const auto poured = lot_row("bought (the house&#39;s)");
  ASSERT_EQ(poured.size(), 6U) << "it went into this batch by topping up alone";
  EXPECT_THAT(poured[4], HasSubstr("onto wood, to top it up"));
  const auto topped = row_of(section(sheet(), "Wood"), "the second, in cask 3", "Topped up");
  ASSERT_EQ(topped.size(), 4U);
  EXPECT_THAT(topped[1], HasSubstr("at 60.0 %vol"));
  EXPECT_EQ(topped[2], "bought");
}

TEST_F(RecordedLots, ToppingUpAndLabellingAreStepsOfTheRecord) {
  reduce();
  mature();
  bottle();
  const std::string steps = section(sheet(), "What was done");
  const auto topped = row_of(steps, "Topped up: the second, in cask 3, with 220 mL of bought");
  ASSERT_EQ(topped.size(), 4U) << read_aloud("<body>" + steps);
  EXPECT_EQ(topped[3], "Wren");
  EXPECT_THAT(read_aloud("<body>" + steps),
              HasSubstr("as Tern &lt;Cask&gt;, 58.8 %vol stated, Grain spirit"));
}

TEST_F(RecordedLots, SpiritReducedAgainGoesThroughReduceOnce) {
  reduce();
  // In: 4.5 L of hearts at 70 %vol. Out: 2.80 L as mixed, less the 2.40 L of it that went into
  // the second, which was gauged as 4.5 L at 61 %vol.
  expect_through("Reduce", 4.5 * 0.70, 2.80 - 2.40 + 4.5 * 0.61);
}

TEST_F(RecordedLots, SpiritMovedToOtherWoodGoesThroughWoodOnceWithWhatToppedItUp) {
  reduce();
  mature();
  const double in = 4.0 * 0.61 + 0.22 * 0.60;
  // Only a splash is off the wood for good.
  expect_through("Wood", in, 0.1 * 0.60);
  bottle();
  expect_through("Wood", in, 0.1 * 0.60 + 3.7 * 0.59);
}

TEST_F(RecordedLots, AtMaturingStrengthIsWhatReduceGave) {
  reduce();
  mature();
  const auto row = row_of(sheet(), "Spirit at maturing strength");
  ASSERT_EQ(row.size(), 4U);
  // 0.67 L of the first, by what was mixed, and 4.5 L of the second: not what two casks held.
  EXPECT_NEAR(std::stod(row[2]), 5.17, 0.03) << row[2];
}

TEST_F(RecordedLots, OfASpiritBroughtToBottlingStrengthReduceTellsOnlyTheFirst) {
  reduce();
  book.tell(60 * a_day,
            journal::LotMade{"for bottles",
                             {part(second, LotKind::spirit, 4.0)},
                             Mass::kilograms(1.6),
                             litres_at_20C(5.6),
                             percent_at_20C(43.0)},
            Stage::bottle);
  expect_through("Reduce", 4.5 * 0.70, 2.80 - 2.40 + 4.5 * 0.61);
}

TEST_F(RecordedLots, AGaugingWeeksLaterIsNotOneOfTheMixing) {
  reduce();
  const std::string part_of_sheet = section(sheet(), "Reduce");
  const auto later = row_of(part_of_sheet, "the first");
  ASSERT_EQ(later.size(), 6U);
  EXPECT_EQ(later[4], "") << "nobody gauged it when it was mixed";
  const auto at_once = row_of(part_of_sheet, "the second");
  ASSERT_EQ(at_once.size(), 6U);
  EXPECT_THAT(at_once[4], HasSubstr("at 61.0 %vol"));
}

TEST_F(RecordedLots, ASumOfPartsIsReckonedHoweverOftenItIsGauged) {
  reduce();
  mature();
  for (const char* lot : {"the first", "the second", "the second, in cask 3"}) {
    const auto row = lot_row(lot);
    ASSERT_EQ(row.size(), 6U) << lot;
    EXPECT_THAT(row[2], HasSubstr(", reckoned")) << lot;
  }
  for (const char* lot : {"hearts of Tern 8", "the second, in cask 3, off the wood"}) {
    const auto row = lot_row(lot);
    ASSERT_EQ(row.size(), 6U) << lot;
    EXPECT_THAT(row[2], Not(HasSubstr("reckoned"))) << lot;
  }
}

TEST_F(RecordedLots, BottlesThatWereTakenAreNotLeft) {
  reduce();
  mature();
  bottle();
  const std::string name =
      "the second, in cask 3, off the wood, in cask 4, off the wood, bottled";
  const auto left = [&] {
    const auto row = lot_row(name);
    return row.empty() ? std::string{} : row.back();
  };
  EXPECT_EQ(left(), "7 of 500 mL");
  book.tell(220 * a_day,
            journal::LotTaken{
                {bottles, LotKind::bottles}, Volume::litres(1.0), journal::Gone::given, ""});
  EXPECT_EQ(left(), "5 of 500 mL");
  book.tell(221 * a_day,
            journal::LotTaken{
                {bottles, LotKind::bottles}, Volume::litres(0.2), journal::Gone::tasted, ""});
  EXPECT_THAT(left(), HasSubstr("2.30 L at 59.0 %vol"));
}

TEST_F(RecordedLots, WhatStandsOnTheLabelsIsTold) {
  reduce();
  mature();
  bottle();
  const auto row = row_of(section(sheet(), "Bottle"), "Tern &lt;Cask&gt;", "On the labels");
  ASSERT_EQ(row.size(), 5U);
  EXPECT_EQ(row[2], "58.8 %vol");
  EXPECT_EQ(row[3], "Grain spirit");
}

TEST_F(RecordedLots, ALotOfARunChargedWithWashIsOfTheWashAndOneBroughtIsBrought) {
  book.tell(15 * a_day, journal::LotBrought{"low wines from before", LotKind::low_wines,
                                            litres_at_20C(2.0), percent_at_20C(25.0)});
  EXPECT_EQ(lot_row("low wines of Tern 8").at(1), "the wash");
  EXPECT_EQ(lot_row("hearts of Tern 8").at(1), "the wash");
  EXPECT_EQ(lot_row("foreshots of Tern 8").at(1), "the wash");
  EXPECT_EQ(lot_row("low wines from before").at(1), "brought in");
}

TEST_F(RecordedLots, OnlyStripsThatAreGaugedGaveLowWinesAndNoFeintsAreToldAsNone) {
  const std::string front = read_aloud(sheet());
  EXPECT_THAT(front, HasSubstr(" 1 strip gave 6.00 L at 28.0 %vol of low wines."));
  EXPECT_THAT(front, HasSubstr("no feints are kept."));
  EXPECT_THAT(front, Not(HasSubstr("nothing of feints")));
  const auto cut_row = row_of(section(sheet(), "Jars"), "Foreshots", "The cut");
  EXPECT_EQ(cut_row.size(), 4U) << "that they were poured away nobody told";
}

}  // namespace
}  // namespace lynearm::sheet
