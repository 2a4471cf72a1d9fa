// More in, more out; higher up, cooler boil: whatever the figures, they must move the right
// way.
#include <gtest/gtest.h>

#include "plan/backward.hpp"
#include "plan/plan.hpp"
#include "plan/tern.hpp"
#include "vapour/atmosphere.hpp"

namespace lynearm::plan {
namespace {

double alcohol_in_wash(const Recipe& recipe) {
  const Plan plan = make(recipe, tern::kit_8());
  return spirit::pure_alcohol(wort::lot(plan.ferment.fermented.wash)).litres();
}

TEST(Monotone, more_of_any_grain_or_sugar_makes_more_alcohol) {
  const double before = alcohol_in_wash(tern::recipe_8());
  for (std::size_t i = 0; i < tern::recipe_8().bill.size(); ++i) {
    Recipe more = tern::recipe_8();
    more.bill[i].mass = more.bill[i].mass * 1.1;
    EXPECT_GT(alcohol_in_wash(more), before) << more.bill[i].ingredient;
  }
}

TEST(Monotone, a_higher_house_boils_cooler) {
  double last = 1000.0;
  for (const double metres : {0.0, 500.0, 1000.0, 2000.0, 3000.0}) {
    Kit kit = tern::kit_8();
    kit.place.pressure = vapour::standard_pressure(units::Length::metres(metres));
    const double boils = make(tern::recipe_8(), kit).strip.one.heat_up.boiling.celsius();
    EXPECT_LT(boils, last);
    last = boils;
  }
}

TEST(Monotone, each_further_sparge_brings_less) {
  Recipe recipe = tern::recipe_8();
  recipe.mash.sparges.assign(5, recipe.mash.sparges.front());
  const Plan plan = make(recipe, tern::kit_8());
  double last = 1000.0;
  for (const mash::RunOff& run_off : plan.mash.mash->drained->run_offs) {
    if (run_off.kind != mash::RunOffKind::sparge) continue;
    EXPECT_LT(run_off.gained.percent(), last);
    last = run_off.gained.percent();
  }
}

TEST(Monotone, more_reflux_gives_stronger_first_spirit) {
  double last = 0.0;
  for (const double percent : {0.0, 5.0, 10.0, 20.0}) {
    Kit kit = tern::kit_8();
    kit.still.head_reflux_spirit.median = units::Share::percent(percent);
    const double first = make(tern::recipe_8(), kit).spirit.one.run.first().spout.percent();
    EXPECT_GT(first, last);
    last = first;
  }
}

TEST(Monotone, a_later_hearts_end_gives_more_and_weaker_hearts) {
  double volume = 0.0;
  double strength = 100.0;
  for (const double end : {66.0, 62.0, 58.0, 54.0}) {
    Recipe recipe = tern::recipe_8();
    recipe.spirit_run.hearts_end = units::VolumeStrength::percent(end);
    const Plan plan = make(recipe, tern::kit_8());
    EXPECT_GT(plan.spirit.hearts.volume.litres(), volume);
    EXPECT_LT(plan.spirit.hearts.strength.percent(), strength);
    volume = plan.spirit.hearts.volume.litres();
    strength = plan.spirit.hearts.strength.percent();
  }
}

TEST(Monotone, twice_the_recipe_holds_twice_the_extract) {
  const Plan one = make(tern::recipe_8(), tern::kit_8());
  Kit large = tern::kit_8();
  for (Vessel& vessel : large.vessels) {
    vessel.total = vessel.total * 2.0;
    vessel.working = vessel.working * 2.0;
    vessel.heat = vessel.heat * 2.0;
  }
  const Plan two = make(scaled(tern::recipe_8(), 2.0), large);
  EXPECT_NEAR(two.mash.bill.potential.extract / one.mash.bill.potential.extract, 2.0, 1e-12);
}

}  // namespace
}  // namespace lynearm::plan
