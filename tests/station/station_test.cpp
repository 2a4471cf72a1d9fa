// A station at work over a journal of its own: what it keeps, what it computes ahead, what it
// tells open pages.
#include "station/station.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <variant>

#include "base/error.hpp"
#include "journal/book.hpp"
#include "journal/questions.hpp"
#include "serve/events.hpp"
#include "station/demonstration.hpp"
#include "station/routes.hpp"
#include "store/temporary_folder.hpp"

namespace lynearm::station {
namespace {

using namespace journal;

class AStation : public testing::Test {
 protected:
  static constexpr double day = 1440.0;
  static constexpr std::size_t few =
      200;  // to follow a run by: what is held here holds of many

  AStation() {
    book.tell(0, BatchBegun{"Tern 9", "", true});
    book.tell(1, BatchPlanned{demo_example("Tern 8").recipe, demo_example("Tern 8").kit});
    book.tell(2, Pitched{litres_at_20C(108), gravity_at_20C(1.0588), "distillers-dry",
                         units::Mass::grams(55)});
  }
  void keep_all() { station.keep(book.entries); }

  store::test::TemporaryFolder folder;
  store::House house{{folder.path(), "", false}};
  Station station{house, numeric::one_after_another(), [] { return minute(5 * day); }, few};
  Book book;
};

TEST_F(AStation, WarmsWhatIsInHandOnceAndAgainWhenItWasRead) {
  keep_all();
  const auto next = [&] {
    const auto seen = station.seen();
    return station.next_steps(seen->house).at(*book.batch);
  };
  // The order of the trade is known at once; what rests on the plan when that is there.
  EXPECT_EQ(next().what, "Read the ferment");
  EXPECT_THAT(next().due_by, testing::Not(testing::HasSubstr("pitch")));
  EXPECT_TRUE(station.warm(numeric::one_after_another()));
  EXPECT_THAT(next().due_by, testing::HasSubstr("counted from the pitch"));
  EXPECT_FALSE(station.warm(numeric::one_after_another()));
  book.tell(2 * day, FermentRead{gravity_at_20C(1.030), {}});
  keep_all();
  EXPECT_TRUE(station.warm(numeric::one_after_another()));
  EXPECT_THAT(next().due_by, testing::HasSubstr("corrected by its readings"));
}

TEST_F(AStation, TellsWhichReadingsOfABatchAreNotBelieved) {
  station.keep(demo_entries());
  const journal::BatchState& tern_8 = demo_batch("Tern 8");
  const sheet::Followed told = station.readings_followed(tern_8);
  EXPECT_TRUE(told.without.empty());
  // Of the invented batch one spout is a slip, 37.2 for 73.2; of its ferment every reading
  // fits.
  ASSERT_EQ(told.doubts.size(), 1U);
  const auto* doubt = std::get_if<still::Doubt>(&told.doubts.front().what);
  ASSERT_NE(doubt, nullptr);
  EXPECT_LT(doubt->shown, 40.0);
  const auto& read = tern_8.runs.back().readings;
  EXPECT_TRUE(std::any_of(read.begin(), read.end(), [&](const RunPoint& point) {
    return point.told.entry == told.doubts.front().entry;
  }));
  // And again: reckoned of the journal, so the same.
  EXPECT_EQ(station.readings_followed(tern_8).doubts.front().entry, told.doubts.front().entry);
}

TEST_F(AStation, TakesStrengthsAsReadOnTheGlassOfTheBatchsOwnKit) {
  keep_all();
  const auto seen = station.seen();
  const journal::Glass of_batch = station.glass(seen->house, book.batch);
  EXPECT_TRUE(of_batch.known());
  EXPECT_NEAR(of_batch.strength_sd.percent(), 0.5 / 1.2816, 1e-4);
  EXPECT_FALSE(station.glass(seen->house, std::nullopt).known()) << "the house has no kit";
  Book house_kit{std::nullopt};
  std::string kit = demo_example("Tern 8").kit;
  const std::string uncertified = "alcoholmeter = \"0.5 %vol\"";
  ASSERT_NE(kit.find(uncertified), std::string::npos);
  kit.replace(kit.find(uncertified), uncertified.size(), "alcoholmeter_class = \"II\"");
  house_kit.tell(5, KitStated{kit});
  station.keep(house_kit.entries);
  const auto now = station.seen();
  EXPECT_LT(station.glass(now->house, std::nullopt).strength_sd.percent(), 0.1);
  EXPECT_NEAR(station.glass(now->house, book.batch).strength_sd.percent(), 0.5 / 1.2816, 1e-4)
      << "a batch keeps the kit it was planned with";
}

TEST_F(AStation, KeepsPlansByTheirTexts) {
  const wire::Example& tern_8 = demo_example("Tern 8");
  const wire::Example& tern_7 = demo_example("Tern 7");
  const auto first = station.plan(tern_8.recipe, tern_8.kit, 0);
  EXPECT_EQ(station.plan(tern_8.recipe, tern_8.kit, 0), first);
  EXPECT_NE(station.plan(tern_7.recipe, tern_7.kit, 0), first);
  EXPECT_NE(station.plan(tern_8.recipe + "\n", tern_8.kit, 0), first);
  EXPECT_EQ(station.plan(tern_8.recipe, tern_8.kit, 0), first);
  EXPECT_THROW((void)station.plan("nothing", tern_8.kit, 0), base::InputError);
}

TEST_F(AStation, AFermentWithoutPlanOrPitchIsRefusedInWords) {
  Book other{id_at(0, 201)};
  other.tell(0, BatchBegun{"Tern 10", "", true});
  station.keep(other.entries);
  const auto seen = station.seen();
  EXPECT_THROW((void)station.ferment(seen->house.batches.at(*other.batch)), base::InputError);
}

TEST_F(AStation, AChargeThatContradictsWhatThereWasIsToldWithItsForecastUntilItIsCorrected) {
  book.tell(6 * day, FermentRead{gravity_at_20C(0.996), {}});
  book.tell(7 * day, Racked{litres_at_20C(100), {}});
  RunBegun begun;
  begun.kind = RunKind::strip;
  begun.charge = litres_at_20C(25);
  begun.wash = units::Volume::litres(25);
  begun.strength = percent_at_20C(18);  // for 8
  const Id run = book.tell(8 * day, begun);
  keep_all();
  const auto told = [&] {
    const auto seen = station.seen();
    const BatchState& batch = seen->house.batches.at(*book.batch);
    return station.forecast(batch, batch.runs.at(0));
  };
  const wire::RunForecast wrong = told();
  ASSERT_THAT(wrong.of_charge, testing::SizeIs(1));
  EXPECT_THAT(wrong.of_charge[0], testing::HasSubstr("The charge holds 4.50 L"));
  {
    const auto seen = station.seen();
    const auto asked =
        questions(seen->house, book.batch, station.glass(seen->house, book.batch));
    ASSERT_THAT(asked, testing::SizeIs(1));
    EXPECT_EQ(asked[0].entry, run);
    EXPECT_EQ(asked[0].why, wrong.of_charge[0]) << "the same sentence on both pages";
  }
  EXPECT_THAT(wire::run_forecast_json(wrong),
              testing::HasSubstr("\"cautions\":[\"The charge holds 4.50 L"));

  begun.strength = percent_at_20C(8);
  book.correct(run, 8 * day + 5, 8 * day, begun);
  keep_all();
  const wire::RunForecast right = told();
  EXPECT_THAT(right.of_charge, testing::IsEmpty());
  EXPECT_EQ(right.run, run) << "the same run, begun anew";
  EXPECT_LT(right.now.alcohol_left.median, wrong.now.alcohol_left.median * 0.6);
  // As a run that was told rightly from the first.
  Station fresh(
      house, numeric::one_after_another(), [] { return minute(9 * day); }, few);
  const auto seen = fresh.seen();
  const BatchState& batch = seen->house.batches.at(*book.batch);
  EXPECT_EQ(fresh.forecast(batch, batch.runs.at(0)).now.alcohol_left.median,
            right.now.alcohol_left.median);
}

// A charge of twice the boiler and 99999 W of a 4 kW kit were kept and followed without a word.
TEST_F(AStation, AChargeOrAHeatBeyondThePlansBoilerIsToldWithTheForecast) {
  RunBegun begun;
  begun.kind = RunKind::strip;
  begun.strength = percent_at_20C(8);
  const auto told_of = [&](double litres, std::optional<double> watts) {
    begun.charge = litres_at_20C(litres);
    begun.power.reset();
    if (watts) begun.power = units::Power::watts(*watts);
    const Id run = book.tell(8 * day, begun);
    keep_all();
    const auto seen = station.seen();
    const BatchState& batch = seen->house.batches.at(*book.batch);
    const std::vector<std::string> of =
        station.forecast(batch, *run_named(batch, run)).of_charge;
    // Also without a forecast: the batch's own answer has it, and its sheet.
    const wire::ByKit by_kit = station.by_kit(batch);
    const wire::AgainstBoiler& against = by_kit.against;
    const auto found = against.find(run);
    EXPECT_EQ(found == against.end() ? std::vector<std::string>{} : found->second, of);
    EXPECT_EQ(station.readings_followed(batch).against, against);
    const std::string told = wire::batch_json(seen->house, batch, nullptr, {}, by_kit);
    for (const std::string& why : of) EXPECT_THAT(told, testing::HasSubstr(why));
    return of;
  };
  // The boiler holds 45 L, and 67.5 % of it of a clear wash; its element gives 4 kW.
  EXPECT_THAT(told_of(25, 4000.0), testing::IsEmpty());
  EXPECT_THAT(told_of(30.9, 4900.0), testing::IsEmpty()) << "within marks and mains";
  EXPECT_THAT(told_of(31.5, {}),
              testing::ElementsAre(testing::StartsWith(
                  "The charge is 31.5 L, and this boiler may be filled to 30.4 L with it")));
  EXPECT_THAT(told_of(60, {}),
              testing::ElementsAre(testing::StartsWith(
                  "The charge is 60.0 L, and the boiler holds 45.0 L to its brim")));
  begun.charge = litres_at_20C(20);
  begun.wash = units::Volume::litres(60);
  const Id by_parts = book.tell(8 * day, begun);
  keep_all();
  const auto with_parts = station.seen();
  EXPECT_THAT(
      station.by_kit(with_parts->house.batches.at(*book.batch)).against.at(by_parts),
      testing::ElementsAre(testing::StartsWith(
          "The charge is 60.0 L by what went into it (20.0 L as told), and the boiler")));
  begun.wash.reset();
  EXPECT_THAT(
      told_of(25, 99999.0),
      testing::ElementsAre("The power is told as 100.0 kW, and the kit's heat gives 4.0 "
                           "kW at most: correct the power, or the kit."));
  begun.strength = percent_at_20C(70);
  EXPECT_THAT(
      told_of(20, 4000.0),
      testing::Contains(testing::StartsWith("The charge is at 70 %vol: above 40 %vol")));
  begun.strength = percent_at_20C(8);
  still::Reading raised;
  raised.power = units::Power::kilowatts(40.0);
  begun.power.reset();
  const Id run = book.tell(8 * day, begun);
  book.tell(8 * day + 30, RunRead{run, raised});
  keep_all();
  const auto seen = station.seen();
  const BatchState& batch = seen->house.batches.at(*book.batch);
  EXPECT_THAT(station.forecast(batch, *run_named(batch, run)).of_charge,
              testing::ElementsAre(testing::StartsWith("The power is told as 40.0 kW")));
}

// 372 L pitched into a vessel of 50 L were kept without a word, and the page told the plan's
// gas.
TEST_F(AStation, WhatKitAndRecipeTellOfAPitchIsToldWithItsBatchItsHouseAndOnItsSheet) {
  const Id much = book.entries.back().id;
  book.correct(much, 10, 2,
               Pitched{litres_at_20C(1080), gravity_at_20C(1.0588), "distillers-dry",
                       units::Mass::grams(550)});
  keep_all();
  const auto seen = station.seen();
  const BatchState& batch = seen->house.batches.at(*book.batch);
  EXPECT_THAT(station.asked_by_kit(seen->house), testing::IsEmpty())
      << "its plan is not computed yet";
  const wire::ByKit by_kit = station.by_kit(batch);
  const std::string asked = "1080.0 L were pitched; the fermenter holds 140.0 L to its brim.";
  ASSERT_EQ(by_kit.asked.size(), 1U);
  EXPECT_EQ(by_kit.asked[0].entry, much);
  EXPECT_EQ(by_kit.asked[0].why, asked);
  ASSERT_TRUE(by_kit.gas && by_kit.gas->gas.peak);
  const std::string told = wire::batch_json(seen->house, batch, nullptr, {}, by_kit);
  EXPECT_THAT(told, testing::HasSubstr(asked));
  EXPECT_THAT(told, testing::HasSubstr("\"carbon_dioxide\":{"));
  EXPECT_EQ(station.asked_by_kit(seen->house).at(batch.id).size(), 1U);
  const std::string houses =
      wire::house_json(seen->house, {}, wire::no_glass, station.asked_by_kit(seen->house));
  EXPECT_THAT(houses, testing::HasSubstr("\"puzzles\":1"));
  const auto made = station.plan(batch.plan->recipe, batch.plan->kit, 0);
  const std::string sheet = sheet::record_sheet({made->pair.recipe,
                                                 made->pair.kit,
                                                 made->plan,
                                                 seen->house,
                                                 batch,
                                                 book.entries,
                                                 units::System::metric,
                                                 0,
                                                 {},
                                                 station.readings_followed(batch)},
                                                sheet::Paper::a4);
  EXPECT_THAT(sheet, testing::HasSubstr("1080.0 L were pitched; the fermenter holds 140.0"));
  EXPECT_THAT(sheet, testing::HasSubstr("As pitched it gives off 7"));
}

TEST_F(AStation, AWashIsNotSaidToStandByGravitiesThatAreNotBelieved) {
  // 0.997 within a day of the pitch is more than any yeast takes, told twice or not.
  book.tell(8 * 60, FermentRead{gravity_at_20C(0.997), {}});
  book.tell(20 * 60, FermentRead{gravity_at_20C(0.997), {}});
  book.tell(1 * day, Racked{litres_at_20C(100), {}});
  keep_all();
  const auto seen = station.seen();
  const BatchState& batch = seen->house.batches.at(*book.batch);
  ASSERT_TRUE(station.by_kit(batch).gas);
  EXPECT_EQ(station.by_kit(batch).gas->standing, plan::GasStanding::stands);
  const sheet::Followed followed = station.readings_followed(batch);
  EXPECT_EQ(followed.doubts.size(), 2U);
  ASSERT_TRUE(followed.gas);
  EXPECT_EQ(followed.gas->standing, plan::GasStanding::racked);
}

TEST_F(AStation, AChargeReckonedByAGravityThatIsNotBelievedIsToldWithItsForecast) {
  // 1.058 for 0.998 on the last day, after readings that all agree.
  for (const auto& [days, gravity] :
       {std::pair{2.0, 1.026}, {3.0, 1.010}, {4.0, 1.001}, {5.0, 0.997}, {6.0, 1.048}}) {
    book.tell(days * day, FermentRead{gravity_at_20C(gravity), {}});
  }
  book.tell(7 * day, Racked{litres_at_20C(100), {}});
  RunBegun begun;
  begun.kind = RunKind::strip;
  begun.charge = litres_at_20C(25);
  begun.wash = units::Volume::litres(25);
  book.tell(8 * day, begun);
  keep_all();
  const auto told = [&] {
    const auto seen = station.seen();
    const BatchState& batch = seen->house.batches.at(*book.batch);
    return station.forecast(batch, batch.runs.at(0));
  };
  const wire::RunForecast by_slip = told();
  ASSERT_THAT(by_slip.of_charge, testing::SizeIs(1));
  EXPECT_THAT(by_slip.of_charge[0],
              testing::HasSubstr("a gravity of 1.0480 that is not believed"));
  // Its strength read, the gravity does not matter.
  begun.strength = percent_at_20C(8);
  book.correct(book.entries.back().id, 8 * day + 5, 8 * day, begun);
  keep_all();
  EXPECT_THAT(told().of_charge, testing::IsEmpty());
}

TEST_F(AStation, AChargeThatNobodyGaugedIsTakenToBeAsStrongAsPlanned) {
  RunBegun begun;
  begun.kind = RunKind::strip;
  begun.charge = litres_at_20C(23.5);
  book.tell(7 * day, begun);
  keep_all();
  const auto seen = station.seen();
  const BatchState& batch = seen->house.batches.at(*book.batch);
  ASSERT_FALSE(batch.runs.at(0).charge_known);
  const wire::RunForecast told = station.forecast(batch, batch.runs.at(0));
  const auto made = station.plan(batch.plan->recipe, batch.plan->kit, 0);
  ASSERT_TRUE(told.charge_by_plan);
  EXPECT_EQ(*told.charge_by_plan, made->plan.strip.one.charge_strength);
  EXPECT_GE(told.forecast.by_time.size(), 2U);
}

// Counts the events of a subscription, and waits for the one that tells of `last`.
class Listener {
 public:
  explicit Listener(serve::Events& events) : subscription_(events.subscribe({"kept"})) {
    subscription_->when_ready([this] {
      const std::lock_guard lock(mutex_);
      ready_ = true;
      changed_.notify_one();
    });
  }
  ~Listener() { subscription_->when_ready({}); }
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;

  bool hears(const std::string& last) {
    const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(20);
    for (;;) {
      for (const serve::Piece& piece : subscription_->take()) {
        ++heard;
        if (piece->find(last) != std::string::npos) return true;
      }
      std::unique_lock lock(mutex_);
      if (!changed_.wait_until(lock, until, [this] { return ready_; })) return false;
      ready_ = false;
    }
  }
  int heard = 0;

 private:
  std::mutex mutex_;
  std::condition_variable changed_;
  bool ready_ = false;
  std::shared_ptr<serve::Subscription> subscription_;
};

TEST_F(AStation, TellsPagesOfABurstAtMostTenTimesASecondAndOfTheLastAlways) {
  serve::Events events;
  Listener listener(events);
  const News news(station, events);
  const auto begun = std::chrono::steady_clock::now();
  keep_all();
  for (int i = 0; i < 60; ++i) {
    book.entries.clear();
    book.tell(10 + i, MashTemperature{units::Temperature::celsius(60 + 0.1 * i)});
    keep_all();
  }
  EXPECT_TRUE(listener.hears("\"sequence\":" + std::to_string(house.journal().last())));
  const double seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
  // One at once, then one each tenth of a second; one more for what was computed ahead.
  EXPECT_LE(listener.heard, 3 + static_cast<int>(seconds * 10.0));
}

TEST_F(AStation, TellsPagesWhenWhatIsComputedAheadIsThere) {
  keep_all();
  serve::Events events;
  Listener listener(events);
  const News news(station, events);
  EXPECT_TRUE(listener.hears("\"sequence\":" + std::to_string(house.journal().last())));
  const auto seen = station.seen();
  EXPECT_THAT(station.next(seen->house, seen->house.batches.at(*book.batch)).due_by,
              testing::HasSubstr("counted from the pitch"));
}

}  // namespace
}  // namespace lynearm::station
