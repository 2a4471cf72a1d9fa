#include <gtest/gtest.h>

#include <algorithm>

#include "plan/plan.hpp"
#include "plan/tern.hpp"

namespace lynearm::plan {
namespace {

// In a cellar over 82 % humidity water enters through the staves while alcohol leaves; asking
// what left for its strength once ended every plan with a cask.
TEST(Finish, a_damp_cellar_lowers_the_strength_and_still_gives_a_plan) {
  Recipe recipe = tern::recipe_8();
  recipe.wood->in = std::string("little cask");
  double strength = 100.0;
  for (const double humidity : {40.0, 70.0, 83.0, 95.0, 100.0}) {
    Kit kit = tern::kit_8();
    kit.place.humidity = units::Share::percent(humidity);
    const Plan plan = make(recipe, kit);
    ASSERT_TRUE(plan.finish.wood.has_value());
    EXPECT_LT(plan.finish.wood->strength.percent(), strength) << humidity;
    strength = plan.finish.wood->strength.percent();
    EXPECT_LT(std::abs(plan.ledger.unaccounted() / plan.ledger.total(Flow::in)), 1e-9);
  }
}

TEST(Finish, bottles_and_remainder_are_what_was_filled) {
  const BottlePlan bottle = make(tern::recipe_8(), tern::kit_8()).finish.bottle;
  EXPECT_NEAR((bottle.size * bottle.bottles + bottle.remainder_volume) / bottle.volume, 1.0,
              1e-12);
  EXPECT_LT(bottle.remainder_volume, bottle.size);
}

TEST(Finish, on_the_grain_the_solids_take_room_and_heat_in_the_pot) {
  Recipe recipe = tern::recipe_8();
  recipe.mash.sparges.clear();
  const Plan clear = make(recipe, tern::kit_8());
  recipe.mash.on_the_grain = true;
  const Plan thick = make(recipe, tern::kit_8());
  EXPECT_GT(thick.strip.one.solids.kilograms(), 0.0);
  EXPECT_EQ(clear.strip.one.solids.kilograms(), 0.0);
  const units::Volume charged =
      thick.strip.one.charge_volume * thick.strip.runs + thick.strip.left_over_volume;
  EXPECT_NEAR(charged / thick.ferment.racked_volume, 1.0, 5e-3);
}

TEST(Finish, a_longer_time_asks_for_fewer_staves) {
  int last = 1000;
  for (const double months : {2.0, 4.0, 6.0, 9.0}) {
    Recipe recipe = tern::recipe_8();
    recipe.wood->time = units::Duration::months(months);
    const int staves = make(recipe, tern::kit_8()).finish.wood->staves;
    EXPECT_LE(staves, last);
    last = staves;
  }
}

}  // namespace
}  // namespace lynearm::plan
