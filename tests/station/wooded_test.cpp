// What lies on wood as the station forecasts it: by the journal's lot and the plan's kit.
#include "station/wooded.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"
#include "station/demonstration.hpp"

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
    house = fold(book.entries);
    const auto all =
        on_wood(plan ? *plan : *made, house, house.batches.at(*book.batch), minute(days * day));
    EXPECT_EQ(all.size(), 1U);
    return all.at(0);
  }

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
  EXPECT_NEAR(laid("staves", staves, 10).now.volume.median.litres(), whole - 0.1, 1e-6);
}

TEST_F(ALotOnWood, WhatToppedItUpIsInTheVesselAndInItsStrength) {
  const int staves = made->plan.finish.wood->staves;
  const wire::WoodPoint before = laid("staves", staves, 10).now;
  book = Book();
  topping = units::Volume::litres(1.0);
  const wire::WoodPoint now = laid("staves", staves, 10).now;
  const spirit::Lot whole = spirit::lot(before.volume.median, before.strength.median) +
                            spirit::lot(topping, topping_strength);
  EXPECT_NEAR(now.volume.median.litres(), spirit::volume(whole).litres(), 1e-6);
  EXPECT_NEAR(now.strength.median.percent(), spirit::strength(whole).percent(), 1e-6);
  EXPECT_GT(now.strength.median, before.strength.median);
}

TEST_F(ALotOnWood, WhatIsNotKnownIsSaidInPlaceOfAFigure) {
  EXPECT_THAT(laid("staves", {}, 10).untold, HasSubstr("number of staves"));
  book = Book();
  EXPECT_THAT(laid("no such cask", {}, 10).untold, HasSubstr("no such cask"));
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
