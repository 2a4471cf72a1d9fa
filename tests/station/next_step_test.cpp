// What a batch needs next and when, told of small stories.
#include "station/next_step.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "station/demonstration.hpp"
#include "station/fermenting.hpp"

namespace lynearm::station {
namespace {

using namespace journal;
using wire::NextStanding;
using wire::NextStep;

constexpr double day = 1440.0;

const PlanMade& made() {
  static Planned planned(numeric::one_after_another());
  static const auto of =
      planned.of(demo_example("Tern 8").recipe, demo_example("Tern 8").kit, 0);
  return *of;
}

class Next : public testing::Test {
 protected:
  Next() { book.tell(0, BatchBegun{"Tern 9", "", true}); }
  void plan() {
    book.tell(1, BatchPlanned{demo_example("Tern 8").recipe, demo_example("Tern 8").kit});
  }
  void pitch(double at) {
    book.tell(at, Pitched{litres_at_20C(108.0), gravity_at_20C(1.0590), "distillers-dry",
                          units::Mass::grams(55)});
  }
  NextStep next(const wire::FermentForecast* ferment = nullptr) {
    house = fold(book.entries);
    const BatchState& batch = house.batches.at(*book.batch);
    EXPECT_TRUE(batch.puzzles.empty()) << batch.puzzles[0].why;
    return next_step(house, batch, batch.plan ? &made() : nullptr, ferment);
  }
  std::shared_ptr<const wire::FermentForecast> followed() {
    house = fold(book.entries);
    return fermenting.of(made(), "texts", house.batches.at(*book.batch));
  }
  static double hours(std::optional<Moment> to, double from_minute) {
    return to ? since(*to, minute(from_minute)).hours() : -1e9;
  }

  Book book;
  HouseState house;
  Fermenting fermenting{numeric::one_after_another()};
};

TEST_F(Next, BeforeAnythingIsDoneThereIsNoTime) {
  EXPECT_EQ(next().what, "Write the mash bill");
  plan();
  const NextStep mash = next();
  EXPECT_EQ(mash.what, "Mash day");
  EXPECT_FALSE(mash.due);
}

TEST_F(Next, OnceSomethingIsReadTheWortIsDueByThePlansSteps) {
  plan();
  book.tell(60, MashTemperature{units::Temperature::celsius(66)});
  const NextStep mash = next();
  EXPECT_EQ(mash.what, "Mash: mind the rest, then draw the wort");
  double begins_h = 0, drain_h = 0;
  for (const plan::Step& step : made().plan.timeline.steps) {
    if (step.stage == "Mash" && begins_h == 0) begins_h = step.start.hours();
    if (step.what.starts_with("Drain")) drain_h = step.start.hours();
  }
  EXPECT_NEAR(hours(mash.due, 60), drain_h - begins_h, 1e-3);
  EXPECT_NEAR(since(*mash.late_after, *mash.due).hours(), 2.0, 1e-9);
}

TEST_F(Next, TheMashStepInHandIsDueWhenItEndsAndNotWhenTheYeastGoesIn) {
  plan();
  const plan::Step* rest = nullptr;
  for (const plan::Step& step : made().plan.timeline.steps) {
    if (step.stage != "Mash" || step.beside) continue;
    if (step.what.starts_with("Rest")) {
      rest = &step;
      break;
    }
    book.tell(60 + step.start.minutes() / 60, StepMarked{step.what, true}, Stage::mash);
  }
  ASSERT_NE(rest, nullptr);
  const Moment stirred = book.last().at;
  const NextStep resting = next();
  EXPECT_THAT(resting.what, testing::StartsWith("Mash: rest, then drain"));
  EXPECT_EQ(resting.stage, Stage::mash);
  ASSERT_TRUE(resting.due);
  EXPECT_NEAR(since(*resting.due, stirred).minutes(), rest->length.minutes(), 1e-3);
  // A wort told ends its run-off, marked or not; taking back a mark changes nothing of it.
  book.tell(400, WortDrawn{"first runnings", litres_at_20C(60), gravity_at_20C(1.066)});
  book.tell(401, StepMarked{rest->what, false}, Stage::mash);
  const NextStep sparging = next();
  EXPECT_THAT(sparging.what, testing::StartsWith("Mash: sparge with"));
  EXPECT_EQ(sparging.since, minute(400));
}

TEST_F(Next, WhenAllOfTheMashIsDoneTheYeastIsDue) {
  plan();
  double at = 60;
  for (const plan::Step& step : made().plan.timeline.steps) {
    if (step.stage == "Mash") book.tell(++at, StepMarked{step.what, true}, Stage::mash);
  }
  const NextStep pitch = next();
  EXPECT_EQ(pitch.what, "Top up the wort and pitch");
  EXPECT_EQ(pitch.stage, Stage::ferment);
  EXPECT_NEAR(hours(pitch.due, at), 0.0, 1e-3);
}

TEST_F(Next, AFermentIsReadOnceADay) {
  plan();
  pitch(100);
  EXPECT_EQ(next().what, "Read the ferment");
  EXPECT_NEAR(hours(next().due, 100), 24.0, 1e-9);
  book.tell(100 + day, FermentRead{gravity_at_20C(1.045), {}});
  EXPECT_NEAR(hours(next().due, 100 + day), 24.0, 1e-9);
}

TEST_F(Next, ADryWashIsRackedWhenItsReadingsSayThatItHasRested) {
  plan();
  pitch(0);
  double last = 0;
  for (const auto& [days, gravity] : {std::pair{1.0, 1.047},
                                      {2.0, 1.022},
                                      {3.0, 1.004},
                                      {4.0, 0.9960},
                                      {5.0, 0.9945},
                                      {6.0, 0.9943}}) {
    last = days * day;
    book.tell(last, FermentRead{gravity_at_20C(gravity), {}});
  }
  const auto forecast = followed();
  ASSERT_TRUE(forecast->followed.dry.median);
  const NextStep rack = next(forecast.get());
  EXPECT_THAT(rack.what, testing::StartsWith("Rack the wash"));
  EXPECT_NEAR(hours(rack.due, 0),
              forecast->followed.dry.median->hours() + forecast->rest.hours(), 1e-3);
  EXPECT_THAT(rack.due_by, testing::HasSubstr("corrected by its readings"));
}

TEST_F(Next, AStuckFermentIsToldBeforeAnythingElse) {
  plan();
  pitch(0);
  for (const double days : {1.0, 2.0, 3.0, 4.0, 5.0, 6.0}) {
    book.tell(days * day, FermentRead{gravity_at_20C(days < 2 ? 1.047 : 1.030), {}});
  }
  const auto forecast = followed();
  EXPECT_TRUE(forecast->followed.stuck);
  EXPECT_THAT(next(forecast.get()).what, testing::HasSubstr("stuck"));
}

TEST_F(Next, StripsFollowEachOtherByThePlanAndThenTheSpiritRun) {
  plan();
  pitch(0);
  book.tell(6 * day, FermentRead{gravity_at_20C(0.995), {}});
  book.tell(9 * day, Racked{litres_at_20C(104), {}});
  const int strips = made().plan.strip.runs;
  ASSERT_GT(strips, 1);
  EXPECT_EQ(next().what, fmt::format("Strip 1 of {}", strips));
  EXPECT_GE(hours(next().due, 9 * day), 0.0);
  for (int i = 1; i <= strips; ++i) {
    const double at = (9 + i) * day;
    const Id run = book.tell(
        at, RunBegun{RunKind::strip, litres_at_20C(26), {}, {}, units::Volume::litres(26), {}});
    EXPECT_EQ(next().standing, NextStanding::now);
    book.tell(at + 300, RunEnded{run, litres_at_20C(8), percent_at_20C(30), {}, {}});
    // The plan sleeps a night after the second; that night is not the maker's.
    EXPECT_NEAR(hours(next().due, at + 300), 0.0, 1e-9) << i;
  }
  const NextStep after = next();
  EXPECT_EQ(after.what, "Begin the spirit run");
  EXPECT_EQ(after.stage, Stage::spirit_run);
}

TEST_F(Next, NoStripIsDueWhenAllWashWasStrippedInFewerThanPlanned) {
  plan();
  pitch(0);
  book.tell(6 * day, FermentRead{gravity_at_20C(0.995), {}});
  book.tell(9 * day, Racked{litres_at_20C(56), {}});
  ASSERT_GT(made().plan.strip.runs, 2);
  for (const int strip : {1, 2}) {
    const double at = (9 + strip) * day;
    const Id run = book.tell(
        at, RunBegun{RunKind::strip, litres_at_20C(28), {}, {}, units::Volume::litres(28), {}});
    book.tell(at + 300, RunEnded{run, litres_at_20C(8), percent_at_20C(30), {}, {}});
    EXPECT_EQ(next().stage, strip == 1 ? Stage::strip : Stage::spirit_run);
  }
  EXPECT_EQ(next().what, "Begin the spirit run");
}

TEST_F(Next, LowWinesThatWereNotGaugedWhenTheStripEndedAreGaugedFirst) {
  const Id run =
      book.tell(10, RunBegun{RunKind::strip, litres_at_20C(26), percent_at_20C(9), {}, {}, {}});
  const Id end = book.tell(300, RunEnded{run, {}, {}, {}, {}});
  EXPECT_EQ(next().what, "Gauge the low wines");
  EXPECT_EQ(next().stage, Stage::strip);
  book.tell(400, LotGauged{{end, LotKind::low_wines}, litres_at_20C(8), percent_at_20C(28)});
  EXPECT_EQ(next().what, "Strip on, or begin the spirit run");
}

// ---- jars, cut, bottles: by the record alone, a batch without a plan ------------------------

class AfterTheRun : public Next {
 protected:
  /// low wines of one strip, and a spirit run of some of them, its one jar gauged.
  Id run_of(double low_wines_L, double charged_L) {
    const Id strip = book.tell(10, RunBegun{RunKind::strip,
                                            litres_at_20C(26),
                                            percent_at_20C(9),
                                            {},
                                            units::Volume::litres(26),
                                            {}});
    const Id low =
        book.tell(300, RunEnded{strip, litres_at_20C(low_wines_L), percent_at_20C(28), {}, {}});
    const Id run =
        book.tell(400, RunBegun{RunKind::spirit,
                                litres_at_20C(charged_L),
                                {},
                                {{{low, LotKind::low_wines}, units::Volume::litres(charged_L)}},
                                {},
                                {}});
    book.tell(700, RunEnded{run, {}, {}, {}, {}});
    book.tell(1440, JarGauged{run, 1, litres_at_20C(2), percent_at_20C(65)});
    return run;
  }
  LotName cut(const Id& run) {
    JarPoured all;
    all.jar = 1;
    all.hearts = units::Volume::litres(2);
    return {book.tell(1500, JarsAllotted{run, {all}}), LotKind::hearts};
  }
  LotName reduce(const LotName& hearts, double litres) {
    return {book.tell(1600, LotMade{"at 43",
                                    {{hearts, units::Volume::litres(litres)}},
                                    units::Mass::kilograms(1),
                                    {},
                                    {}}),
            LotKind::spirit};
  }
  void bottle(const LotName& lot, double litres) {
    const int count = static_cast<int>(litres / 0.5);
    book.tell(1700 + litres, Bottled{{lot, units::Volume::litres(litres)},
                                     count,
                                     units::Volume::litres(0.5),
                                     units::VolumeStrength::percent(43)});
  }
};

TEST_F(AfterTheRun, ASecondSpiritRunIsNamedWhileTheJarsOfTheFirstWait) {
  run_of(20, 12);
  const NextStep jars = next();
  EXPECT_EQ(jars.stage, Stage::jars);
  EXPECT_EQ(jars.what, "Gauge and cut the jars; spirit run 2 can begin meanwhile");
}

TEST_F(AfterTheRun, AndAlsoOnceTheyAreCut) {
  cut(run_of(20, 12));
  EXPECT_EQ(next().what, "Reduce the hearts; spirit run 2 can begin meanwhile");
}

TEST_F(AfterTheRun, ARestOfLowWinesIsNoRun) {
  run_of(13, 12);
  EXPECT_EQ(next().what, "Gauge and cut the jars");
}

// Once "Reduce to bottling strength, and bottle", overdue for good.
TEST_F(AfterTheRun, ARestUnderABottleIsKeptBackAndTheBatchDone) {
  const LotName spirit = reduce(cut(run_of(12, 12)), 2);
  EXPECT_EQ(next().what, "Lay on wood, or bottle");
  bottle(spirit, 2.5);
  const NextStep end = next();
  EXPECT_THAT(end.what,
              testing::MatchesRegex("In bottles, 0\\.4. L kept back: close the batch.*"));
  EXPECT_EQ(end.standing, NextStanding::done);
  EXPECT_FALSE(end.due);
}

TEST_F(AfterTheRun, ARestOfABottleOrMoreWaitsButIsNeverOverdue) {
  const LotName spirit = reduce(cut(run_of(12, 12)), 2);
  bottle(spirit, 1.5);
  const NextStep end = next();
  EXPECT_THAT(end.what, testing::MatchesRegex("In bottles, 1\\.4. L kept back.*"));
  EXPECT_EQ(end.standing, NextStanding::waits);
  EXPECT_EQ(end.stage, Stage::bottle);
  EXPECT_FALSE(end.due);
  EXPECT_FALSE(end.late_after);
}

TEST_F(AfterTheRun, HeartsOfWhichSomeWereKeptBackAreNotReducedForEver) {
  const LotName spirit = reduce(cut(run_of(12, 12)), 1.9);
  EXPECT_EQ(next().what, "Lay on wood, or bottle");
  bottle(spirit, 2.5);
  EXPECT_EQ(next().standing, NextStanding::done);
}

TEST_F(Next, TheInventedHouseKnowsWhatComesNext) {
  const NextStep tern_8 = next_step(demo_house(), demo_batch("Tern 8"), &made(), nullptr);
  EXPECT_EQ(tern_8.standing, NextStanding::now);
  EXPECT_EQ(tern_8.stage, Stage::spirit_run);
  const BatchState& tern_7 = demo_batch("Tern 7");
  Planned planned(numeric::one_after_another());
  const auto of = planned.of(tern_7.plan->recipe, tern_7.plan->kit, 0);
  const NextStep wood = next_step(demo_house(), tern_7, of.get(), nullptr);
  EXPECT_EQ(wood.stage, Stage::wood);
  ASSERT_TRUE(wood.due);
  EXPECT_GT(*wood.due, wood.since);
}

}  // namespace
}  // namespace lynearm::station
