#include "plan/ledger.hpp"

#include <gtest/gtest.h>

#include "ferment/yield.hpp"
#include "plan/plan.hpp"
#include "plan/tern.hpp"
#include "spirit/lot.hpp"

namespace lynearm::plan {
namespace {

TEST(PlanLedger, closes_to_a_billionth) {
  const Plan plan = make(tern::recipe_8(), tern::kit_8());
  EXPECT_LT(std::abs(plan.ledger.unaccounted() / plan.ledger.total(Flow::in)), 1e-9);
}

TEST(PlanLedger, closes_on_the_grain_with_a_cask_and_without_wood) {
  Recipe on_the_grain = tern::recipe_8();
  on_the_grain.mash.sparges.clear();
  on_the_grain.mash.on_the_grain = true;
  Recipe in_cask = tern::recipe_8();
  in_cask.wood->in = std::string("little cask");
  Recipe no_wood = tern::recipe_8();
  no_wood.wood.reset();
  for (const Recipe& recipe : {on_the_grain, in_cask, no_wood}) {
    const Plan plan = make(recipe, tern::kit_8());
    EXPECT_LT(std::abs(plan.ledger.unaccounted() / plan.ledger.total(Flow::in)), 1e-9);
  }
}

// Independent of the ledger's own code: a kilogram of sucrose gives 1.0526 kg of hexose and
// that 51.14 % of ethanol, at 0.78924 kg/L.
TEST(PlanLedger, counts_sugar_by_its_stoichiometry) {
  const Plan plan = make(tern::recipe_8(), tern::kit_8());
  for (const LedgerEntry& entry : plan.ledger.entries) {
    if (entry.name == "in the sugar") {
      // 5.5 kg of sugar holding 0.05 % of water.
      EXPECT_NEAR(entry.pure_alcohol.litres(), 5.5 * 1.0526 * 0.5114 / 0.78924, 0.01);
    }
  }
}

TEST(PlanLedger, agrees_with_the_bottles) {
  const Plan plan = make(tern::recipe_8(), tern::kit_8());
  units::Volume bottled;
  for (const LedgerEntry& entry : plan.ledger.entries) {
    if (entry.name == "in bottles") bottled = entry.pure_alcohol;
  }
  const BottlePlan& bottle = plan.finish.bottle;
  EXPECT_NEAR(bottled.litres(),
              bottle.bottles * bottle.size.litres() * bottle.strength.fraction(), 1e-9);
}

}  // namespace
}  // namespace lynearm::plan
