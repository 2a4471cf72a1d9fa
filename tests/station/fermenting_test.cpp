// A ferment as the station follows it: as pitched, by its plan and its readings.
#include "station/fermenting.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "station/demonstration.hpp"

namespace lynearm::station {
namespace {

using namespace journal;

constexpr double day = 1440.0;

class AFerment : public testing::Test {
 protected:
  AFerment() : made(planned.of(demo_example("Tern 8").recipe, demo_example("Tern 8").kit, 0)) {}
  /// Pitched as planned.
  void pitch() {
    const plan::WortPlan& wort = made->plan.mash.wort;
    pitched = book.tell(0, Pitched{{wort.volume, at_20C},
                                   gravity_at_20C(made->plan.ferment.original_gravity.ratio()),
                                   "distillers-dry",
                                   made->plan.ferment.yeast});
  }
  std::shared_ptr<const wire::FermentForecast> told() {
    house = fold(book.entries);
    return fermenting.of(*made, "texts", house.batches.at(*book.batch));
  }

  Planned planned{numeric::one_after_another()};
  std::shared_ptr<const PlanMade> made;
  Fermenting fermenting{numeric::one_after_another()};
  Book book;
  HouseState house;
  Id pitched;
};

TEST_F(AFerment, PitchedAsPlannedAndNotReadIsThePlansForecast) {
  pitch();
  const auto of = told();
  ASSERT_TRUE(of->followed.dry.median);
  EXPECT_NEAR(of->followed.dry.median->hours(), made->plan.ferment.dry_after.hours(), 0.05);
  EXPECT_NEAR(of->followed.course.front().gravity.median.ratio(),
              made->plan.ferment.original_gravity.ratio(), 1e-5);
  EXPECT_EQ(of->followed.gravities, 0U);
}

TEST_F(AFerment, IsKeptUntilAReadingComesOrIsCorrected) {
  pitch();
  const auto before = told();
  EXPECT_EQ(told(), before);
  EXPECT_EQ(fermenting.ready(*book.batch), before);
  const Id read = book.tell(day, FermentRead{gravity_at_20C(1.050), {}});
  const auto after = told();
  EXPECT_NE(after, before);
  EXPECT_EQ(after->followed.gravities, 1U);
  book.correct(read, day + 5, day, FermentRead{gravity_at_20C(1.040), {}});
  const auto corrected = told();
  EXPECT_NE(corrected, after);
  EXPECT_LT(*corrected->followed.dry.median, *after->followed.dry.median);
}

TEST_F(AFerment, WhatWasReadBeforeThePitchOrAfterRackingIsNotOfIt) {
  pitch();
  book.tell(-30, FermentRead{gravity_at_20C(1.060), {}});
  book.tell(3 * day, FermentRead{gravity_at_20C(1.010), units::Temperature::celsius(24)});
  book.tell(8 * day, Racked{litres_at_20C(100), {}});
  book.tell(9 * day, FermentRead{gravity_at_20C(0.994), {}});
  house = fold(book.entries);
  const FermentReadings read = readings_of(house.batches.at(*book.batch).ferment);
  ASSERT_EQ(read.readings.size(), 1U);
  EXPECT_NEAR(read.readings[0].at.days(), 3.0, 1e-9);
}

TEST_F(AFerment, AWrongReadingIsToldByItsEntry) {
  pitch();
  Id wrong;
  for (const auto& [days, gravity] :
       {std::pair{1.0, 1.047}, {2.0, 1.020}, {2.5, 1.040}, {3.0, 1.006}, {4.0, 0.997}}) {
    const Id id = book.tell(days * day, FermentRead{gravity_at_20C(gravity), {}});
    if (days == 2.5) wrong = id;
  }
  const std::string json = wire::ferment_forecast_json(*told());
  EXPECT_THAT(json, testing::HasSubstr("\"doubts\":[{\"entry\":\"" + print(wrong) + "\""));
  EXPECT_THAT(json, testing::HasSubstr("\"pitched\":{\"entry\":\"" + print(pitched) + "\""));
  EXPECT_THAT(json, testing::Not(testing::HasSubstr("\"stuck\"")));
}

TEST_F(AFerment, WithoutAReadingThatIsBelievedItIsAsPlannedAndSaysSo) {
  pitch();
  const auto planned_only = told();
  // A slip on the first day: 1.010 for 1.060 is more than any yeast takes in eight hours.
  const Id slip = book.tell(8 * 60, FermentRead{gravity_at_20C(1.010), {}});
  const auto of = told();
  ASSERT_EQ(of->followed.doubts.size(), 1U);
  EXPECT_EQ(of->readings.at(of->followed.doubts[0].reading), slip);
  EXPECT_EQ(of->followed.believed(), 0U);
  EXPECT_EQ(of->followed.dry.median, planned_only->followed.dry.median);
  EXPECT_EQ(of->followed.end.median, planned_only->followed.end.median);
  EXPECT_FALSE(of->followed.stuck);
  const std::string json = wire::ferment_forecast_json(*of);
  EXPECT_THAT(json, testing::HasSubstr("no reading is believed yet; as planned"));
  EXPECT_THAT(json,
              testing::HasSubstr("as planned from the pitch: no reading is believed yet"));
  EXPECT_THAT(json, testing::HasSubstr("\"readings\":0"));
  EXPECT_THAT(json, testing::Not(testing::HasSubstr("the others say")));
  // The wash is reckoned by what was told, and says by which entry.
  const std::optional<WashState>& wash = house.batches.at(*book.batch).ferment.wash;
  ASSERT_TRUE(wash);
  EXPECT_EQ(wash->told.entry, slip);
}

TEST_F(AFerment, AGravityAboveTheWortsLeavesThePlansForecastAndNoWash) {
  pitch();
  const auto planned_only = told();
  book.tell(8 * 60, FermentRead{gravity_at_20C(1.160), {}});
  const auto of = told();
  EXPECT_EQ(of->followed.believed(), 0U);
  EXPECT_EQ(of->followed.end.median, planned_only->followed.end.median);
  EXPECT_FALSE(house.batches.at(*book.batch).ferment.wash);
}

}  // namespace
}  // namespace lynearm::station
