// Plans of thousands of random recipes and kits: every figure finite, every balance closed,
// nothing negative that cannot be. A pair that cannot be carried through must say why.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <iostream>
#include <map>
#include <string>

#include "base/error.hpp"
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

}  // namespace
}  // namespace lynearm::plan
