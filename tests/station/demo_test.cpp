// The demonstration: its journal reads and folds, its figures hang together and follow the
// plans, and the examples plan.
#include "station/demo.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <sstream>
#include <string>

#include "base/error.hpp"
#include "journal/account.hpp"
#include "journal/fold.hpp"
#include "journal/questions.hpp"
#include "numeric/ensemble.hpp"
#include "plan/plan.hpp"
#include "recipe/read_pair.hpp"
#include "station/followed.hpp"
#include "wire/entry.hpp"
#include "wire/house.hpp"

namespace lynearm::station {
namespace {

using journal::BatchState;
using journal::Entry;
using journal::HouseState;
using journal::LotKind;

const std::vector<Entry>& entries() {
  static const std::vector<Entry> all = [] {
    std::vector<Entry> read;
    std::istringstream lines{std::string(demo_journal())};
    for (std::string line; std::getline(lines, line);) {
      const wire::EntryRead one = wire::read_entry(line, "line");
      for (const base::Fault& fault : one.faults) ADD_FAILURE() << base::sentence(fault);
      if (one.entry) read.push_back(*one.entry);
    }
    return read;
  }();
  return all;
}

const HouseState& house() {
  static const HouseState folded = journal::fold(entries());
  return folded;
}

const BatchState& batch(const std::string& name) {
  for (const auto& [id, of] : house().batches) {
    if (of.name == name) return of;
  }
  throw std::runtime_error("no batch " + name);
}

const journal::LotState& lot(const std::string& label) {
  for (const journal::LotState& one : house().lots) {
    if (one.label == label) return one;
  }
  throw std::runtime_error("no lot " + label);
}

recipe::Pair pair_of(const std::string& recipe, const std::string& kit) {
  return recipe::read_pair({recipe, "recipe"}, {kit, "kit"});
}
plan::Plan planned(const BatchState& of) {
  const recipe::Pair pair = pair_of(of.plan->recipe, of.plan->kit);
  return plan::make(pair.recipe, pair.kit);
}

TEST(Demo, FoldsWithoutAPuzzle) {
  EXPECT_GT(entries().size(), 200U);
  for (const journal::Puzzle& puzzle : house().puzzles) ADD_FAILURE() << puzzle.why;
  for (const auto& [id, of] : house().batches) {
    for (const journal::Puzzle& puzzle : of.puzzles) {
      ADD_FAILURE() << of.name << ": " << puzzle.why;
    }
  }
}

TEST(Demo, NothingIsAskedOfItsAmounts) {
  const auto glass_of = [](const std::optional<journal::Id>& batch) {
    if (!batch || !house().batches.at(*batch).plan) return journal::Glass{};
    const BatchState& of = house().batches.at(*batch);
    return journal::glass_of(pair_of(of.plan->recipe, of.plan->kit).kit.instruments);
  };
  for (const auto& [batch, asked] : journal::questions(house(), glass_of)) {
    for (const journal::Puzzle& one : asked) ADD_FAILURE() << one.why;
  }
}

TEST(Demo, KeepsItsEntriesLetterForLetterThroughTheWire) {
  for (const Entry& entry : entries()) {
    const wire::EntryRead again = wire::read_entry(wire::entry_json(entry));
    ASSERT_TRUE(again.entry) << print(entry.id);
    EXPECT_EQ(*again.entry, entry);
  }
}

TEST(Demo, IsTwoInventedBatchesByName) {
  ASSERT_EQ(house().batches.size(), 2U);
  EXPECT_TRUE(batch("Tern 7").invented);
  EXPECT_TRUE(batch("Tern 8").invented);
  EXPECT_THAT(std::string(demo_journal()), testing::HasSubstr("invented"));
}

TEST(Demo, IsToldByRolesAndLiesInThePast) {
  const auto from = journal::read_moment("2026-09-20T00:00:00Z");
  const auto to = journal::read_moment("2026-11-26T00:00:00Z");
  std::set<journal::Id> ids;
  for (const Entry& entry : entries()) {
    EXPECT_TRUE(entry.who == "the stillman" || entry.who == "the apprentice") << entry.who;
    EXPECT_TRUE(ids.insert(entry.id).second) << "twice: " << print(entry.id);
    EXPECT_EQ(entry.id.version(), 7);
    EXPECT_GE(entry.at, *from);
    EXPECT_LT(entry.at, *to);
    // Written down at once, or at most some minutes later.
    const double late_min = since(entry.id.made(), entry.at).minutes();
    EXPECT_GE(late_min, 0.0) << print(entry.id);
    EXPECT_LE(late_min, 5.0) << print(entry.id);
  }
}

TEST(Demo, LotsBalanceAndNoneIsOverdrawn) {
  for (const journal::LotState& one : house().lots) {
    spirit::Lot sum = one.left;
    for (const journal::LotUse& use : one.uses) sum = sum + use.lot;
    EXPECT_NEAR(sum.ethanol.kilograms(), one.made.ethanol.kilograms(), 1e-9) << one.label;
    EXPECT_NEAR(sum.water.kilograms(), one.made.water.kilograms(), 1e-9) << one.label;
    EXPECT_GE(one.left.ethanol.kilograms(), 0.0) << one.label;
    EXPECT_GE(one.left.water.kilograms(), 0.0) << one.label;
  }
}

TEST(Demo, ChargesHoldWhatWasPutIn) {
  // A house gauges a charge of 12 to 30 L to some 1 %: account.hpp.
  for (const auto& [id, of] : house().batches) {
    for (const journal::RunState& run : of.runs) {
      if (run.parts.empty()) continue;
      double put_in_L = 0.0;
      for (const journal::LotPart& part : run.parts) {
        for (const journal::LotUse& use : lot_named(house(), part.lot)->uses) {
          if (use.told.entry == run.told.entry) {
            put_in_L += spirit::pure_alcohol(use.lot).litres();
          }
        }
      }
      EXPECT_NEAR(spirit::pure_alcohol(run.charge).litres(), put_in_L, 0.01 * put_in_L);
    }
  }
}

TEST(Demo, FeintsOfTern7GoIntoTheChargeOfTern8) {
  const journal::RunState& run = batch("Tern 8").runs.back();
  const journal::LotState& feints = lot("feints of Tern 7");
  EXPECT_EQ(run.kind, journal::RunKind::spirit);
  EXPECT_TRUE(std::any_of(run.parts.begin(), run.parts.end(),
                          [&](const auto& part) { return part.lot == feints.name; }));
  EXPECT_EQ(feints.generation, 2);  // those of Tern 6 were in Tern 7's charge
  EXPECT_GT(spirit::volume(feints.left).litres(), 1.0);
}

TEST(Demo, TheAccountNamesWhatEachPotKeptAndNothingIsTelling) {
  std::size_t runs = 0;
  for (const char* name : {"Tern 7", "Tern 8"}) {
    for (const journal::AccountStep& step : journal::account(house(), batch(name)).steps) {
      const double gap_L = step.unaccounted.value.litres();
      EXPECT_FALSE(step.telling) << name << ", " << step.what << ": " << gap_L << " L";
      EXPECT_LE(std::abs(gap_L), 2.0 * step.unaccounted.sd.litres()) << name << step.what;
      if (step.stage == journal::Stage::strip || step.stage == journal::Stage::spirit_run) {
        ASSERT_EQ(step.named.size(), 1U) << name << ", " << step.what;
        // A strip to 10 %vol leaves some 6.5 % of its alcohol, a spirit run under 2 %.
        const double share = step.named[0].second.value / step.in.value;
        const bool strips = step.stage == journal::Stage::strip;
        EXPECT_NEAR(share, strips ? 0.065 : 0.013, strips ? 0.01 : 0.007) << name << step.what;
        ++runs;
      }
    }
  }
  // Four strips and a spirit run; four strips. The run that goes on is not in it.
  EXPECT_EQ(runs, 9U);
}

TEST(Demo, FollowsItsPlansWithSmallErrors) {
  for (const char* name : {"Tern 7", "Tern 8"}) {
    const BatchState& of = batch(name);
    const plan::Plan plan = planned(of);
    EXPECT_NEAR(of.ferment.pitch->gravity.ratio(), plan.ferment.original_gravity.ratio(),
                0.001);
    // A hydrometer's last mark read half a mark off, and what the batch made of it.
    EXPECT_NEAR(of.ferment.wash->gravity.ratio(), plan.ferment.final_gravity.ratio(), 0.001);
    double low_wines_L = 0.0;
    for (const journal::RunState& run : of.runs) {
      if (run.collected) low_wines_L += spirit::volume(*run.collected).litres();
    }
    EXPECT_NEAR(low_wines_L, plan.strip.low_wines_volume.litres(), 0.02 * low_wines_L) << name;
  }
}

TEST(Demo, TheWortOfTern8CameOutShort) {
  const BatchState& of = batch("Tern 8");
  const double short_L =
      planned(of).mash.wort.volume.litres() - of.ferment.pitch->volume.litres();
  EXPECT_NEAR(short_L, 1.3, 0.15);
  EXPECT_NEAR(batch("Tern 7").ferment.pitch->volume.litres(),
              planned(batch("Tern 7")).mash.wort.volume.litres(), 0.15);
}

TEST(Demo, MarkedStepsAreSentencesOfThePlan) {
  for (const char* name : {"Tern 7", "Tern 8"}) {
    const BatchState& of = batch(name);
    const std::vector<plan::Step> steps = planned(of).timeline.steps;
    EXPECT_FALSE(of.steps.empty());
    for (const journal::StepState& marked : of.steps) {
      EXPECT_TRUE(std::any_of(steps.begin(), steps.end(),
                              [&](const plan::Step& step) { return step.what == marked.step; }))
          << name << ": " << marked.step;
    }
  }
}

TEST(Demo, HoldsACorrectionAndAStrikingOut) {
  const BatchState& of = batch("Tern 8");
  EXPECT_EQ(of.struck, 1U);
  const auto corrected =
      std::find_if(of.mash.temperatures.begin(), of.mash.temperatures.end(),
                   [](const journal::MashPoint& point) { return point.told.corrections > 0; });
  ASSERT_NE(corrected, of.mash.temperatures.end());
  EXPECT_DOUBLE_EQ(corrected->temperature.celsius(), 66.1);
  EXPECT_EQ(of.runs.back().jars.size(), 18U);
}

TEST(Demo, TheStoppedRunIsFollowedWithoutTheSlip) {
  const BatchState& of = batch("Tern 8");
  const journal::RunState& run = of.runs.back();
  EXPECT_EQ(run.standing, journal::RunStanding::stopped);
  const recipe::Pair pair = pair_of(of.plan->recipe, of.plan->kit);
  Followed followed(numeric::one_after_another());
  const wire::RunForecast told = followed.of(pair.recipe, pair.kit, of.plan->kit, run);
  EXPECT_TRUE(told.refused.empty());
  ASSERT_EQ(told.doubts.size(), 1U);
  EXPECT_EQ(told.doubts.front().instrument, still::Instrument::hydrometer);
  EXPECT_LT(told.doubts.front().shown, 40.0);
  EXPECT_NEAR((told.doubts.front().low + told.doubts.front().high) / 2.0, 72.3, 1.0);
}

TEST(Demo, SomeOfTern7IsOnWoodAndSomeInBottles) {
  const journal::LotState& wood = lot("Tern 7 at 55, in staves");
  ASSERT_TRUE(wood.wood);
  EXPECT_NEAR(spirit::strength(wood.left).percent(), 55.0, 0.1);
  EXPECT_NEAR(spirit::volume(wood.left).litres(), 3.42, 0.01);
  const journal::LotState& bottles = lot("Tern 7, clear, bottled");
  ASSERT_TRUE(bottles.bottles);
  EXPECT_EQ(bottles.bottles->bottles, 2);
}

TEST(Demo, ItsStatesAreToldAsJson) {
  for (const auto& [id, of] : house().batches) {
    EXPECT_THAT(wire::batch_json(house(), of), testing::HasSubstr(of.name));
  }
}

TEST(Demo, EveryPlanInTheJournalPlans) {
  int plans = 0;
  for (const Entry& entry : entries()) {
    const auto* const body = std::get_if<journal::BatchPlanned>(&entry.body);
    if (body == nullptr) continue;
    const recipe::Pair pair = pair_of(body->recipe, body->kit);
    EXPECT_NO_THROW(static_cast<void>(plan::make(pair.recipe, pair.kit)));
    ++plans;
  }
  EXPECT_EQ(plans, 3);  // Tern 7 was planned anew
}

TEST(DemoExamples, PlanWithoutFaults) {
  const std::vector<wire::Example> examples = demo_examples();
  ASSERT_EQ(examples.size(), 3U);
  for (const wire::Example& example : examples) {
    const recipe::Pair pair = pair_of(example.recipe, example.kit);
    EXPECT_EQ(pair.recipe.name, example.name);
    EXPECT_THAT(example.remark, testing::HasSubstr("nvented"));
    EXPECT_NO_THROW(static_cast<void>(plan::make(pair.recipe, pair.kit)));
  }
}

TEST(DemoExamples, TheIllFittingOneHasALesson) {
  const wire::Example last = demo_examples().back();
  const recipe::Pair pair = pair_of(last.recipe, last.kit);
  EXPECT_GT(plan::make(pair.recipe, pair.kit).findings.size(), 5U);
}

}  // namespace
}  // namespace lynearm::station
