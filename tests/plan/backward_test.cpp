#include "plan/backward.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "base/error.hpp"
#include "plan/tern.hpp"
#include "spirit/strength.hpp"

namespace lynearm::plan {
namespace {

using units::SpecificGravity;
using units::Volume;
using units::VolumeStrength;

TEST(Backward, for_an_amount_of_spirit_the_plan_gives_that_amount) {
  for (const double litres : {3.0, 5.0, 10.0}) {
    const Solved solved = for_spirit(tern::recipe_8(), tern::kit_8(), Volume::litres(litres),
                                     VolumeStrength::percent(55.0));
    const Plan plan = make(solved.recipe, tern::kit_8());
    EXPECT_NEAR(plan.finish.reduce.volume.litres(), litres, 1e-3 * litres);
    EXPECT_NEAR(plan.finish.reduce.strength.percent(), 55.0, 1e-9);
  }
}

TEST(Backward, for_more_than_one_charge_can_hold_it_says_what_can_be_had) {
  try {
    static_cast<void>(for_spirit(tern::recipe_8(), tern::kit_8(), Volume::litres(500.0),
                                 VolumeStrength::percent(55.0)));
    FAIL() << "one kept spirit charge of a 45 L boiler cannot give 500 L";
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).field, "for");
    EXPECT_NE(error.faults().at(0).accepted.find("second run"), std::string::npos);
  }
}

TEST(Backward, to_a_gravity_by_sugar_or_by_water) {
  for (const GravityBy by : {GravityBy::sugar, GravityBy::water}) {
    for (const double wanted : {1.050, 1.062, 1.070}) {
      Recipe recipe = tern::recipe_8();
      recipe.ferment.gravity_by = by;
      const Solved solved = for_gravity(recipe, tern::kit_8(), SpecificGravity::ratio(wanted));
      const Plan plan = make(solved.recipe, tern::kit_8());
      EXPECT_NEAR(plan.ferment.original_gravity.ratio(), wanted, 1e-6);
      EXPECT_FALSE(solved.says.empty());
    }
  }
}

TEST(Backward, to_a_gravity_that_cannot_be_says_what_can) {
  EXPECT_THROW(static_cast<void>(
                   for_gravity(tern::recipe_8(), tern::kit_8(), SpecificGravity::ratio(1.005))),
               base::InputError);
  Recipe by_water = tern::recipe_8();
  by_water.ferment.gravity_by = GravityBy::water;
  EXPECT_THROW(
      static_cast<void>(for_gravity(by_water, tern::kit_8(), SpecificGravity::ratio(1.150))),
      base::InputError);
  Recipe no_sugar = tern::recipe_8();
  no_sugar.bill.pop_back();
  no_sugar.sugar_boil.reset();
  EXPECT_THROW(
      static_cast<void>(for_gravity(no_sugar, tern::kit_8(), SpecificGravity::ratio(1.062))),
      base::InputError);
}

TEST(Backward, scaled_to_a_kit_that_no_size_fits_says_what_stands_against_it) {
  Kit kit = tern::kit_8();
  kit.still.greatest_coolant_flow = units::VolumeFlow::litres_per_minute(0.01);
  try {
    static_cast<void>(scale_to_kit(tern::recipe_8(), kit));
    FAIL() << "the coolant is short whatever is charged";
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).field, "scale-to-kit");
    EXPECT_NE(error.faults().at(0).accepted.find("coolant"), std::string::npos);
  }
}

// Within the search's own step: what overflows far beyond the kit is passed over at once.
TEST(Backward, scaled_to_the_kit_from_far_above_it_comes_down_to_the_same_batch) {
  const double factor = scale_to_kit(tern::recipe_8(), tern::kit_8()).factor;
  const Recipe large = scaled(tern::recipe_8(), 20.0, 1.0);
  EXPECT_NEAR(scale_to_kit(large, tern::kit_8()).factor * 20.0, factor, 2e-3 * factor);
}

TEST(Backward, scaled_to_the_kit_fits_and_a_little_more_does_not) {
  const Solved solved = scale_to_kit(tern::recipe_8(), tern::kit_8());
  const auto misfits = [](const Plan& plan) {
    return std::count_if(
        plan.findings.begin(), plan.findings.end(), [](const Finding& finding) {
          return finding.code == "vessel-too-full" || finding.code == "vessel-overfilled" ||
                 finding.code == "wash-left-over" || finding.code == "no-room-for-foam";
        });
  };
  EXPECT_EQ(misfits(make(solved.recipe, tern::kit_8())), 0);
  EXPECT_GT(misfits(make(scaled(tern::recipe_8(), solved.factor * 1.05), tern::kit_8())), 0);
}

TEST(Backward, scaling_by_one_changes_nothing) {
  const Plan before = make(tern::recipe_8(), tern::kit_8());
  const Plan after = make(scaled(tern::recipe_8(), 1.0), tern::kit_8());
  EXPECT_EQ(before.finish.bottle.volume, after.finish.bottle.volume);
}

TEST(Backward, another_ingredient_brings_the_same_extract) {
  const Recipe recipe = tern::recipe_8();
  const Plan before = make(recipe, tern::kit_8());
  const Solved solved = replaced(recipe, tern::kit_8(), 3, "wheat-malt");
  const Plan plan = make(solved.recipe, tern::kit_8());
  EXPECT_EQ(solved.recipe.bill[2].ingredient, "wheat-malt");
  EXPECT_NEAR(plan.mash.bill.potential.extract.kilograms(),
              before.mash.bill.potential.extract.kilograms(), 1e-9);
}

TEST(Backward, a_bill_that_would_not_convert_any_more_is_refused) {
  EXPECT_THROW(static_cast<void>(replaced(tern::recipe_8(), tern::kit_8(), 2, "sugar")),
               base::InputError);
  EXPECT_THROW(static_cast<void>(replaced(tern::recipe_8(), tern::kit_8(), 5, "sugar")),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::plan
