// What lies on wood as the station forecasts it: by the journal's lot and the plan's kit.
#include "station/wooded.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"
#include "station/demonstration.hpp"
#include "wood/evaporation.hpp"

namespace lynearm::station {
namespace {

using namespace journal;
using ::testing::HasSubstr;

constexpr double day = 1440.0;

class ALotOnWood : public testing::Test {
 protected:
  ALotOnWood()
      : made(planned.of(demo_example("Tern 8").recipe, demo_example("Tern 8").kit, 0)) {}
  /// What the plan lays on wood is laid so, and looked at after so many days.
  wire::WoodForecast laid(const std::string& in, std::optional<int> staves, double days,
                          const PlanMade* plan = nullptr) {
    const plan::WoodPlan& wood = *made->plan.finish.wood;
    const Id brought =
        book.tell(0, LotBrought{"hearts",
                                LotKind::spirit,
                                {wood.filled, at_20C},
                                percent_at_20C(spirit::strength(wood.into_wood).percent())});
    const plan::WoodStep& step = *made->pair.recipe.wood;
    const Id filled = book.tell(
        0,
        WoodFilled{
            {{brought, LotKind::spirit}, wood.filled}, in, step.species, step.toast, staves});
    if (sample > units::Volume{}) {
      book.tell(day, WoodSampled{{filled, LotKind::spirit}, sample, {}, ""});
    }
    if (topping > units::Volume{}) {
      const Id other = book.tell(0, LotBrought{"stronger",
                                               LotKind::spirit,
                                               {units::Volume::litres(2.0), at_20C},
                                               percent_at_20C(topping_strength.percent())});
      book.tell(day,
                WoodTopped{{filled, LotKind::spirit}, {{other, LotKind::spirit}, topping}});
    }
    lying = filled;
    return forecast(days, plan);
  }
  /// The one lot that lies on wood then.
  wire::WoodForecast forecast(double days, const PlanMade* plan = nullptr) {
    house = fold(book.entries);
    const auto all =
        on_wood(plan ? *plan : *made, house, house.batches.at(*book.batch), minute(days * day));
    EXPECT_EQ(all.size(), 1U);
    return all.at(0);
  }

  /// A lot of the plan's volume and strength, laid on the day as told.
  void lay(WoodFilled told, double on_day = 0.0) {
    const plan::WoodPlan& wood = *made->plan.finish.wood;
    const Id brought = book.tell(on_day * day, LotBrought{"hearts",
                                                          LotKind::spirit,
                                                          {wood.filled, at_20C},
                                                          percent_at_20C(into().percent())});
    told.part = {{brought, LotKind::spirit}, wood.filled};
    lying = book.tell(on_day * day, told);
  }
  WoodFilled staves(int count, std::optional<int> used = {}) const {
    const plan::WoodStep& step = *made->pair.recipe.wood;
    return {{}, "staves", step.species, step.toast, count, used};
  }
  StavesLaid besides(int count, std::optional<int> used = {}) const {
    const plan::WoodStep& step = *made->pair.recipe.wood;
    return {count, step.species, step.toast, used};
  }
  /// Off the wood as it is forecast, and onto other wood at once.
  void move(WoodFilled to, double on_day) {
    const wire::WoodPoint& then = forecast(on_day).now;
    move(std::move(to), on_day, then.volume.median, then.strength.median);
  }
  void move(WoodFilled to, double on_day, units::Volume volume,
            units::VolumeStrength strength) {
    const Id off = book.tell(on_day * day, WoodEmptied{{lying, LotKind::spirit},
                                                       {volume, at_20C},
                                                       percent_at_20C(strength.percent())});
    to.part = {{off, LotKind::spirit}, volume};
    lying = book.tell(on_day * day, to);
  }
  units::VolumeStrength into() const {
    return spirit::strength(made->plan.finish.wood->into_wood);
  }

  // Of a part that came in, or would have gone out, on the first day: a good closure lets a
  // steady share of a year through (our estimate, wood/evaporation.hpp).
  double left_of_nine_days() const {
    const units::Share factor = made->pair.kit.constants.evaporation_factor.median;
    return std::exp(-wood::good_closure.fraction() * factor.fraction() *
                    units::Duration::days(9.0).years());
  }

  Id lying{};             ///< laid last
  units::Volume sample;   ///< drawn on the first day
  units::Volume topping;  ///< poured after on the first day
  const units::VolumeStrength topping_strength = units::VolumeStrength::percent(70.0);
  Planned planned{numeric::one_after_another()};
  std::shared_ptr<const PlanMade> made;
  Book book;
  HouseState house;
};

TEST_F(ALotOnWood, LaidAsPlannedEndsAsThePlanSays) {
  const plan::WoodPlan& wood = *made->plan.finish.wood;
  const wire::WoodForecast told = laid("staves", wood.staves, 10);
  ASSERT_EQ(told.untold, "");
  EXPECT_NEAR(told.end->extract.median.fraction(), wood.extract.fraction(), 1e-6);
  // The plan takes its samples off, and none was drawn here.
  EXPECT_NEAR(told.end->volume.median.litres(),
              spirit::volume(wood.matured + wood.samples).litres(), 1e-3);
  EXPECT_NEAR(told.end->strength.median.percent(), wood.strength.percent(), 1e-3);
  EXPECT_NEAR(told.times_a_200L_cask, wood.times_a_200L_cask, 1e-6);
  EXPECT_LT(told.now.extract.high, told.end->extract.median);
  EXPECT_LT(told.now.extract.low, told.now.extract.median);
  EXPECT_EQ(told.course.size(), 25U);
  const std::string json = wire::wood_forecasts_json({told});
  EXPECT_THAT(json, HasSubstr("Extraction is not age"));
  EXPECT_THAT(json, HasSubstr("\"why_extract\""));
}

TEST_F(ALotOnWood, WhatWasDrawnIsNoLongerInTheVessel) {
  const int staves = made->plan.finish.wood->staves;
  const double whole = laid("staves", staves, 10).now.volume.median.litres();
  book = Book();
  sample = units::Volume::millilitres(100.0);
  // What was drawn would have lost its part past the closure in the nine days.
  EXPECT_NEAR(laid("staves", staves, 10).now.volume.median.litres(),
              whole - 0.1 * left_of_nine_days(), 1e-9);
}

TEST_F(ALotOnWood, WhatToppedItUpIsInTheVesselAndInItsStrength) {
  const int staves = made->plan.finish.wood->staves;
  const wire::WoodPoint before = laid("staves", staves, 10).now;
  book = Book();
  topping = units::Volume::litres(1.0);
  const wire::WoodPoint now = laid("staves", staves, 10).now;
  // What was poured in has lost its part past the closure in the nine days.
  const spirit::Lot whole = spirit::lot(before.volume.median, before.strength.median) +
                            spirit::lot(topping, topping_strength) * left_of_nine_days();
  EXPECT_NEAR(now.volume.median.litres(), spirit::volume(whole).litres(), 1e-9);
  EXPECT_NEAR(now.strength.median.percent(), spirit::strength(whole).percent(), 1e-7);
  EXPECT_GT(now.strength.median, before.strength.median);
  // New spirit thins what was taken up, and more spirit takes up less to the litre.
  EXPECT_LT(now.extract.median,
            before.extract.median * (before.volume.median / now.volume.median) +
                units::Share::fraction(0.02));
  EXPECT_LT(now.extract.median, before.extract.median);
}

TEST_F(ALotOnWood, ASetInTwoHalvesIsForecastAsOneSet) {
  lay(staves(6));
  const wire::WoodForecast one = forecast(40);
  book = Book();
  WoodFilled halves = staves(3);
  halves.besides = {besides(3)};
  lay(halves);
  const wire::WoodForecast two = forecast(40);
  ASSERT_EQ(two.untold, "");
  EXPECT_EQ(two.woods.size(), 2U);
  EXPECT_EQ(two.staves, 6);
  EXPECT_NEAR(two.now.extract.median.fraction(), one.now.extract.median.fraction(), 1e-12);
  EXPECT_NEAR(two.end->extract.high.fraction(), one.end->extract.high.fraction(), 1e-12);
  EXPECT_NEAR(two.now.volume.median.litres(), one.now.volume.median.litres(), 1e-9);
  EXPECT_NEAR(two.surface.square_centimetres_per_litre(),
              one.surface.square_centimetres_per_litre(), 1e-9);
}

TEST_F(ALotOnWood, StavesThatWereUsedGiveByTheShareThatIsLeft) {
  lay(staves(4));
  const units::Share fresh = forecast(40).now.extract.median;
  book = Book();
  WoodFilled both = staves(4);
  both.besides = {besides(4, 1)};
  lay(both);
  const wire::WoodForecast told = forecast(40);
  // A second filling holds 0.45 of the first: our estimate, docs/rooms/wood.md.
  EXPECT_NEAR(told.now.extract.median / fresh, 1.45, 1e-9);
  EXPECT_NEAR(told.woods[1].given / fresh, 0.45, 1e-9);
}

TEST_F(ALotOnWood, StavesInACaskAddToItAndTheAirTakesByTheCask) {
  PlanMade with = *made;
  plan::Cask cask;
  cask.name = "oak 1";
  cask.volume = made->plan.finish.wood->filled * 1.05;
  with.pair.kit.casks = {cask};
  WoodFilled told = staves(2);
  told.in = "oak 1";
  told.staves = {};
  lay(told);
  const wire::WoodForecast alone = forecast(60, &with);
  book = Book();
  told.besides = {besides(2)};
  lay(told);
  const wire::WoodForecast both = forecast(60, &with);
  ASSERT_EQ(both.untold, "");
  ASSERT_EQ(both.woods.size(), 2U);
  EXPECT_NEAR(both.now.extract.median.fraction(),
              alone.now.extract.median.fraction() + both.woods[1].given.fraction(), 1e-12);
  EXPECT_GT(both.woods[1].given, units::Share{});
  // The staves drink, and pass nothing to the air.
  EXPECT_GT(both.soaked, alone.soaked);
  EXPECT_NEAR(both.now.evaporated.median / alone.now.evaporated.median, 1.0, 0.01);
}

TEST_F(ALotOnWood, AfterAMoveItGoesOnFromWhatItHadTaken) {
  lay(staves(4));
  const wire::WoodForecast first = forecast(30);
  move(staves(2), 30);
  const wire::WoodForecast at_once = forecast(30);
  ASSERT_EQ(at_once.untold, "");
  EXPECT_NEAR(at_once.now.extract.median.fraction(), first.now.extract.median.fraction(),
              1e-12);
  ASSERT_EQ(at_once.before.size(), 1U);
  EXPECT_NEAR(at_once.before[0].days.days(), 30.0, 1e-9);
  const wire::WoodForecast later = forecast(50);
  EXPECT_NEAR(later.now.extract.median.fraction(),
              later.carried.median.fraction() + later.woods[0].given.fraction(), 1e-12);
  EXPECT_GT(later.now.extract.median, first.now.extract.median);
  // The plan's time is that on wood in all.
  EXPECT_NEAR(later.planned->days(), made->pair.recipe.wood->time.days() - 30.0, 1e-9);
  EXPECT_THAT(wire::wood_forecasts_json({later}), HasSubstr("\"carried_fraction\""));
}

TEST_F(ALotOnWood, MovedAtOnceToTheSameFreshWoodIsAsNotMoved) {
  lay(staves(4));
  const wire::WoodForecast stayed = forecast(40);
  book = Book();
  lay(staves(4));
  move(staves(4), 0, made->plan.finish.wood->filled, into());
  const wire::WoodForecast moved = forecast(40);
  EXPECT_NEAR(moved.now.extract.median.fraction(), stayed.now.extract.median.fraction(), 1e-9);
  EXPECT_NEAR(moved.now.volume.median.litres(), stayed.now.volume.median.litres(), 1e-6);
  EXPECT_NEAR(moved.planned->days(), stayed.planned->days(), 1e-9);
}

TEST_F(ALotOnWood, ToppedUpWithWoodedSpiritItIsThinnedLess) {
  const auto with_topping = [&](bool wooded) {
    book = Book();
    const Id other = book.tell(
        0, LotBrought{"other", LotKind::spirit, litres_at_20C(2.0), percent_at_20C(60)});
    Id top = other;
    if (wooded) {
      WoodFilled on = staves(8);
      on.part = {{other, LotKind::spirit}, units::Volume::litres(2.0)};
      const Id laid_too = book.tell(0, on);
      top = book.tell(
          30 * day,
          WoodEmptied{{laid_too, LotKind::spirit}, litres_at_20C(1.7), percent_at_20C(60)});
    }
    lay(staves(4));
    book.tell(30 * day, WoodTopped{{lying, LotKind::spirit},
                                   {{top, LotKind::spirit}, units::Volume::litres(1.0)}});
    return forecast(40).now.extract.median;
  };
  EXPECT_GT(with_topping(true), with_topping(false));
}

TEST_F(ALotOnWood, GaugedOnTheWoodItGoesOnFromThatGauging) {
  lay(staves(4));
  const units::Volume gauged = made->plan.finish.wood->filled * 0.9;
  book.tell(20 * day,
            LotGauged{{lying, LotKind::spirit}, {gauged, at_20C}, percent_at_20C(58)});
  const wire::WoodPoint now = forecast(20).now;
  EXPECT_NEAR(now.volume.median.litres(), gauged.litres(), 1e-6);
  EXPECT_NEAR(now.strength.median.percent(), 58.0, 1e-6);
  EXPECT_LT(forecast(200).now.volume.median, gauged);
}

TEST_F(ALotOnWood, ACaskThatHeldSpiritBeforeGivesAsAUsedOne) {
  PlanMade with = *made;
  plan::Cask cask;
  cask.name = "oak 1";
  cask.volume = made->plan.finish.wood->filled * 1.05;
  with.pair.kit.casks = {cask};
  WoodFilled in = staves(1);
  in.in = "oak 1";
  in.staves = {};
  lay(in);
  const wire::WoodForecast first = forecast(60, &with);
  book.tell(100 * day,
            WoodEmptied{{lying, LotKind::spirit}, litres_at_20C(3.0), percent_at_20C(60)});
  lay(in, 100);
  const wire::WoodForecast second = forecast(160, &with);
  EXPECT_EQ(second.woods[0].used_times, 1);
  EXPECT_NEAR(second.now.extract.median / first.now.extract.median, 0.45, 1e-9);
  EXPECT_EQ(second.soaked, units::Volume{});
}

TEST_F(ALotOnWood, WhatItTookOfWoodThatIsNotKnownIsSaidToComeBesides) {
  lay(staves(4));
  WoodFilled unknown = staves(1);
  unknown.in = "a neighbour's cask";
  unknown.staves = {};
  book = Book();
  lay(unknown);
  move(staves(4), 30, made->plan.finish.wood->filled, into());
  const wire::WoodForecast told = forecast(40);
  ASSERT_EQ(told.untold, "");
  EXPECT_EQ(told.carried.median, units::Share{});
  EXPECT_THAT(told.carried_untold, HasSubstr("a neighbour's cask"));
  EXPECT_EQ(told.findings.at(0).code, "former-wood-unknown");
}

TEST_F(ALotOnWood, WhatIsNotKnownIsSaidInPlaceOfAFigure) {
  EXPECT_THAT(laid("staves", {}, 10).untold, HasSubstr("number of staves"));
  book = Book();
  EXPECT_THAT(laid("no such cask", {}, 10).untold, HasSubstr("no such cask"));
}

TEST_F(ALotOnWood, WhichOfSpeciesToastAndStavesIsMissingIsSaidWithWhereToTellIt) {
  PlanMade unplanned = *made;
  unplanned.pair.recipe.wood.reset();
  const auto untold = [&](const std::string& species, const std::string& toast,
                          std::optional<int> count) {
    book = Book();
    lay({{}, "staves", species, toast, count, {}});
    const wire::WoodForecast told = forecast(10, &unplanned);
    EXPECT_THAT(told.untold, testing::Not(HasSubstr("accepted")));
    return told.untold;
  };
  EXPECT_EQ(untold("", "", 3),
            "Of this wood species and toast were not told. Tell it by correcting its “wood "
            "filled” in the batch’s journal.");
  const plan::WoodStep& step = *made->pair.recipe.wood;
  EXPECT_THAT(untold(step.species, "", 3), HasSubstr("wood toast was not told"));
  EXPECT_THAT(untold("", step.toast, 3), HasSubstr("wood species was not told"));
  EXPECT_THAT(untold("", "", {}),
              HasSubstr("the number of staves, species and toast were not told"));
  EXPECT_THAT(untold("plum", step.toast, 3), HasSubstr("“plum” is not among the species"));
  EXPECT_EQ(untold(step.species, step.toast, 3), "");
  // Where the plan laid it, the plan knows.
  book = Book();
  lay({{}, "staves", "", "", 3, {}});
  EXPECT_EQ(forecast(10).untold, "");
}

TEST_F(ALotOnWood, ASmallNewCaskFilledToTheBrimIsWarnedOf) {
  PlanMade with = *made;
  plan::Cask cask;
  cask.name = "little";
  cask.volume = made->plan.finish.wood->filled;
  with.pair.kit.casks = {cask};
  const wire::WoodForecast told = laid("little", {}, 30, &with);
  ASSERT_EQ(told.untold, "");
  ASSERT_EQ(told.findings.size(), 2U);
  EXPECT_EQ(told.findings[0].code, "little-ullage");
  EXPECT_EQ(told.findings[1].code, "small-new-cask");
  EXPECT_GT(told.now.evaporated.high, told.now.evaporated.low);
}

}  // namespace
}  // namespace lynearm::station
