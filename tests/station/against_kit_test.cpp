// What kit and recipe ask. 372 L pitched into a vessel of 50 L, and 241 L of wort drawn off a
// tub of 45 L with 8.7 kg of grain, were kept without a question.
#include "station/against_kit.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "plan/house.hpp"
#include "station/demonstration.hpp"
#include "wort/gravity.hpp"

namespace lynearm::station {
namespace {

using namespace journal;

class AgainstKitTest : public testing::Test {
 protected:
  AgainstKitTest()
      : made(planned.of(demo_example("Tern 8").recipe, demo_example("Tern 8").kit, 0)) {}
  Id draw(double litres, double gravity, const std::string& from = "first runnings") {
    return book.tell(++minutes, WortDrawn{from, litres_at_20C(litres), gravity_at_20C(gravity)},
                     Stage::mash);
  }
  Id pitch(double litres, double gravity) {
    return book.tell(500, Pitched{litres_at_20C(litres), gravity_at_20C(gravity),
                                  "distillers-dry", units::Mass::grams(55)});
  }
  std::vector<Puzzle> asked() {
    house = fold(book.entries);
    return asked_by_kit(*made, house.batches.at(*book.batch));
  }

  Planned planned{numeric::one_after_another()};
  std::shared_ptr<const PlanMade> made;
  Book book;
  HouseState house;
  double minutes = 0;
};

TEST_F(AgainstKitTest, MorePitchedThanTheFermenterHoldsIsAsked) {
  const double brim_L =
      plan::vessel_named(made->pair.kit, made->pair.recipe.ferment.vessel).total.litres();
  const Id id = pitch(7.4 * brim_L, 1.010);
  const std::vector<Puzzle> all = asked();
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0].entry, id);
  EXPECT_EQ(all[0].why,
            fmt::format("{:.1f} L were pitched; the {} holds {:.1f} L to its brim.",
                        house.batches.at(*book.batch).ferment.pitch->volume.litres(),
                        made->pair.recipe.ferment.vessel, brim_L));
}

TEST_F(AgainstKitTest, APitchToTheBrimReadBadlyIsNotAsked) {
  const double brim_L =
      plan::vessel_named(made->pair.kit, made->pair.recipe.ferment.vessel).total.litres();
  pitch(1.03 * brim_L, 1.040);
  EXPECT_THAT(asked(), testing::IsEmpty());
}

TEST_F(AgainstKitTest, MoreWortThanWaterAndTubGiveIsAskedOnceAtTheEntryThatWasTooMuch) {
  draw(30, 1.050);
  EXPECT_THAT(asked(), testing::IsEmpty());
  const MostWort most = most_wort(*made, house.batches.at(*book.batch));
  const double much_L = 1.2 * most.most().litres();
  const Id id = draw(much_L, 1.001, "sparge 1");
  draw(5, 1.001, "sparge 2");
  const std::vector<Puzzle> all = asked();
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0].entry, id);
  EXPECT_THAT(all[0].why, testing::StartsWith("With this "));
  EXPECT_THAT(all[0].why, testing::HasSubstr(" L of wort were drawn off; all the water "));
  EXPECT_THAT(all[0].why, testing::HasSubstr(fmt::format(
                              "and the bill, are {:.1f} L, and the {} holds",
                              most.of_water.litres(), made->pair.recipe.mash.vessel)));
}

TEST_F(AgainstKitTest, WaterThatWasToldAndDrainingsBesidesWidenTheBound) {
  draw(30, 1.050);
  (void)asked();
  const MostWort before = most_wort(*made, house.batches.at(*book.batch));
  book.tell(20, MashWater{units::Volume::litres(200), units::Temperature::celsius(70)},
            Stage::mash);
  (void)asked();
  const MostWort after = most_wort(*made, house.batches.at(*book.batch));
  EXPECT_NEAR((after.of_water - before.of_water).litres(), 200.0, 1e-9);
  for (int i = 0; i < 5; ++i) draw(1, 1.010, "sparge");
  (void)asked();
  EXPECT_EQ(most_wort(*made, house.batches.at(*book.batch)).drainings, 6);
}

TEST_F(AgainstKitTest, MoreExtractThanTheBillIsDryIsAsked) {
  const mash::Potential& bill = made->plan.mash.bill.potential;
  // 2.6 g of extract to a litre and point of gravity, by NBS Circular 440 at 1.100: 259.
  const double litres = 1.4 * bill.dry.kilograms() / 0.259;
  const Id id = draw(litres, 1.100);
  const std::vector<Puzzle> all = asked();
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0].entry, id);
  EXPECT_THAT(all[0].why, testing::StartsWith("With this the worts hold "));
  EXPECT_THAT(all[0].why,
              testing::EndsWith(fmt::format("the {:.2f} kg of the bill are {:.2f} kg dry.",
                                            bill.mass.kilograms(), bill.dry.kilograms())));
  // With as much put in, it may be.
  book.tell(30, Added{"sugar", units::Mass::kilograms(0.6 * bill.dry.kilograms()), {}},
            Stage::mash);
  EXPECT_THAT(asked(), testing::IsEmpty());
}

TEST_F(AgainstKitTest, APitchThatHoldsMoreThanTheBillIsAsked) {
  const mash::Potential& bill = made->plan.mash.bill.potential;
  const Id id = pitch(1.4 * bill.dry.kilograms() / 0.259, 1.100);
  const std::vector<Puzzle> all = asked();
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0].entry, id);
  EXPECT_THAT(all[0].why, testing::StartsWith("The wort pitched holds "));
}

// Worts and pitch as planned, or as a good house does better, each read as a house reads it.
TEST_F(AgainstKitTest, HonestReadingsAreNeverAsked) {
  const plan::MashStage& mash = made->plan.mash;
  std::mt19937 dice(7);
  std::normal_distribution<double> bell;
  std::uniform_real_distribution<double> even;
  for (int i = 0; i < 2000; ++i) {
    book = Book{};
    minutes = 0;
    const double more = 0.8 + 0.3 * even(dice);  // water, of the plan's
    for (const mash::RunOff& run_off : mash.mash->drained->run_offs) {
      if (!(run_off.volume > units::Volume{})) continue;
      draw(more * run_off.volume.litres() * (1.0 + 0.01 * bell(dice)),
           wort::specific_gravity(run_off.wort).ratio() + 0.001 * bell(dice));
    }
    if (mash.sugar) {
      // Thinned with some of the topping-up water: a hydrometer has no scale for the syrup.
      wort::Wort sugar = mash.sugar->wort;
      sugar.water += wort::water_to_reach(sugar, units::Plato::degrees(30.0));
      draw(wort::volume(sugar).litres() * (1.0 + 0.01 * bell(dice)),
           wort::specific_gravity(sugar).ratio() + 0.001 * bell(dice), "sugar");
    }
    pitch(mash.wort.volume.litres() * (1.0 + 0.01 * bell(dice)),
          mash.wort.original_gravity.ratio() + 0.001 * bell(dice));
    ASSERT_THAT(asked(), testing::IsEmpty()) << "house " << i << ": " << asked()[0].why;
  }
}

TEST_F(AgainstKitTest, TheInventedHouseIsNotAsked) {
  for (const auto& [id, batch] : demo_house().batches) {
    if (!batch.plan) continue;
    const auto of = planned.of(batch.plan->recipe, batch.plan->kit, 0);
    EXPECT_THAT(asked_by_kit(*of, batch), testing::IsEmpty()) << batch.name;
  }
}

}  // namespace
}  // namespace lynearm::station
