// Plans of thousands of random recipes and kits: every figure finite, every balance closed,
// nothing negative that cannot be. A pair that cannot be carried through must say why.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <iostream>
#include <map>
#include <string>

#include "base/error.hpp"
#include "plan/backward.hpp"
#include "plan/figures.hpp"
#include "plan/plan.hpp"
#include "plan/random_recipes.hpp"

namespace lynearm::plan {
namespace {

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define LYNEARM_SANITIZED 1
#endif
#endif

// Ten thousand pairs; a tenth of them where the sanitizers make each plan ten times as slow,
// unless the whole is asked for.
int pairs() {
#ifdef LYNEARM_SANITIZED
  return std::getenv("LYNEARM_FULL") != nullptr ? 10000 : 1000;
#else
  return 10000;
#endif
}

class RandomPlans : public ::testing::Test {
 protected:
  static void check(const Plan& plan, int number) {
    for (const Figure* figure : figures_of(plan)) {
      EXPECT_TRUE(std::isfinite(figure->of(plan))) << number << " " << figure->key;
    }
    const double in = plan.ledger.total(Flow::in).litres();
    EXPECT_LT(std::abs(plan.ledger.unaccounted().litres()), 1e-9 * in) << number;
    for (const LedgerEntry& entry : plan.ledger.entries) {
      EXPECT_TRUE(std::isfinite(entry.pure_alcohol.litres())) << number << entry.name;
      EXPECT_GE(entry.pure_alcohol.litres(), -1e-9 * in) << number << " " << entry.name;
    }
    for (const StageYield& stage : plan.ledger.stages) {
      EXPECT_LE(stage.out.litres(), stage.in.litres() * (1.0 + 1e-9)) << number << stage.stage;
    }
    // Mass over the still: charge in, distillate and pot out.
    for (const RunPlan* run : {&plan.strip.one, &plan.spirit.one}) {
      const units::Mass charge = run->charge.spirit.mass();
      const units::Mass out = run->collected.mass() + run->lost.mass() + run->run.left().mass();
      EXPECT_NEAR(out / charge, 1.0, 1e-12) << number;
      EXPECT_GT(run->length.seconds(), 0.0);
      EXPECT_GT(run->energy.joules(), 0.0);
    }
    for (std::size_t i = 1; i < plan.timeline.steps.size(); ++i) {
      EXPECT_GE(plan.timeline.steps[i].start, plan.timeline.steps[i - 1].start) << number;
    }
    for (const Step& step : plan.timeline.steps) {
      EXPECT_GE(step.length.seconds(), 0.0) << number << " " << step.what;
    }
    for (std::size_t i = 1; i < plan.findings.size(); ++i) {
      EXPECT_LE(plan.findings[i - 1].weight, plan.findings[i].weight);
    }
    for (const Finding& finding : plan.findings) {
      EXPECT_FALSE(finding.says.empty());
      EXPECT_FALSE(finding.remedy.empty());
      EXPECT_EQ(finding.says.find("nan"), std::string::npos) << finding.says;
    }
  }
};

TEST_F(RandomPlans, are_finite_and_closed_or_say_why_not) {
  std::map<std::string, int> refused;
  int made = 0;
  for (int i = 0; i < pairs(); ++i) {
    const Pair pair = RandomPair(static_cast<std::uint64_t>(i)).make();
    try {
      check(make(pair.recipe, pair.kit), i);
      ++made;
    } catch (const base::InputError& error) {
      for (const base::Fault& fault : error.faults()) {
        EXPECT_FALSE(fault.accepted.empty()) << i;
        ++refused[fault.field];
      }
    }
    if (HasFailure()) FAIL() << "the first pair that fails is number " << i;
  }
  RecordProperty("made", made);
  for (const auto& [field, count] : refused) RecordProperty("refused_" + field, count);
  for (const auto& [field, count] : refused) {
    std::cout << "refused for " << field << ": " << count << "\n";
  }
  // Most random pairs are sound; a refusal is an answer too, but must not be the rule.
  EXPECT_GT(made, pairs() * 8 / 10);
}

// Laws that hold whatever the figures. More grain in the same water dissolves more extract; it
// need not make more alcohol, for in a thick mash the grain holds back more than it brings
// (18 of 1,313 pairs), so the law for alcohol is told of a whole batch made larger.
TEST_F(RandomPlans, move_the_right_way) {
  int compared = 0;
  for (int i = 0; i < pairs(); i += 5) {
    const Pair pair = RandomPair(static_cast<std::uint64_t>(i)).make();
    try {
      const Plan plan = make(pair.recipe, pair.kit);
      const Plan larger = make(scaled(pair.recipe, 1.05), pair.kit);
      EXPECT_GT(larger.ferment.fermented.wash.ethanol, plan.ferment.fermented.wash.ethanol)
          << i;

      Pair richer = pair;
      for (BillLine& line : richer.recipe.bill) line.mass = line.mass * 1.05;
      const Plan rich = make(richer.recipe, richer.kit);
      EXPECT_GT(rich.mash.mash->extract_made, plan.mash.mash->extract_made) << i;

      Pair higher = pair;
      higher.kit.place.pressure = pair.kit.place.pressure * 0.97;
      const Plan high = make(higher.recipe, higher.kit);
      EXPECT_LT(high.strip.one.heat_up.boiling, plan.strip.one.heat_up.boiling) << i;
      ++compared;

      if (pair.recipe.mash.on_the_grain) continue;
      Pair sparged = pair;
      sparged.recipe.mash.sparges.assign(
          4, {pair.recipe.bill.front().mass.kilograms() * units::Volume::litres(0.7),
              units::Temperature::celsius(72.0)});
      const Plan four = make(sparged.recipe, sparged.kit);
      double last = 1.0;
      for (const mash::RunOff& run_off : four.mash.mash->drained->run_offs) {
        if (run_off.kind != mash::RunOffKind::sparge) continue;
        EXPECT_LE(run_off.gained.fraction(), last * (1.0 + 1e-9)) << i;
        last = run_off.gained.fraction();
      }
    } catch (const base::InputError&) {
      continue;  // refused at one of the sizes; the other test looks at refusals
    }
    if (HasFailure()) FAIL() << "the first pair that moves the wrong way is number " << i;
  }
  EXPECT_GT(compared, pairs() / 5 * 7 / 10);
}

}  // namespace
}  // namespace lynearm::plan
