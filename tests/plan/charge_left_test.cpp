// What a charge leaves over the element: the plan's own figure at the planned charge, the
// engine's on others, and when it is told that the element is bare.
#include "plan/charge_left.hpp"

#include <gtest/gtest.h>

#include <cstdio>
#include <optional>
#include <string>
#include <tuple>

#include "base/error.hpp"
#include "mash/heat.hpp"
#include "plan/run_plan.hpp"
#include "plan/still_parts.hpp"
#include "plan/tern.hpp"
#include "still/charge.hpp"

namespace lynearm::plan {
namespace {

using units::Volume;
using units::VolumeStrength;

class ALeftCharge : public testing::Test {
 protected:
  static Volume litres(double L) { return Volume::litres(L); }
  static VolumeStrength percent(double p) { return VolumeStrength::percent(p); }
  [[nodiscard]] ChargeLeft strip(double L, std::optional<double> strength = {}) const {
    return of(false, L, strength);
  }
  [[nodiscard]] ChargeLeft spirit(double L, std::optional<double> strength = {}) const {
    return of(true, L, strength);
  }
  [[nodiscard]] ChargeLeft of(bool gentle, double L, std::optional<double> strength) const {
    ChargeFilled charge{gentle, litres(L), {}};
    if (strength) charge.strength = percent(*strength);
    return charge_left(charge, recipe, kit, plan);
  }
  void needs(double L) { kit.still.boiler.element_covered_above = litres(L); }
  [[nodiscard]] std::string refusal(bool gentle, double L, double strength) const {
    try {
      (void)of(gentle, L, strength);
    } catch (const base::InputError& error) {
      return error.what();
    }
    return "not refused";
  }

  Recipe recipe = tern::recipe_8();
  Kit kit = tern::kit_8();
  Plan plan = make(recipe, kit);
};

TEST_F(ALeftCharge, OfThePlannedChargeIsWhatThePlanSays) {
  for (const bool gentle : {false, true}) {
    const RunPlan& planned = gentle ? plan.spirit.one : plan.strip.one;
    const double volume_L = planned.charge_volume.litres();
    const double left_L = planned.left_in_pot.litres();
    EXPECT_NEAR(of(gentle, volume_L, {}).left->litres(), left_L, 1e-9);
    // Told with its strength the wash is made up anew: extract takes 0.62 L/kg in the still,
    // and by the table of sucrose in the ferment.
    const double percent = planned.charge_strength.percent();
    EXPECT_NEAR(of(gentle, volume_L, percent).left->litres(), left_L, gentle ? 1e-6 : 2e-3);
  }
}

TEST_F(ALeftCharge, OfOthersIsWhatARunByItselfTells) {
  // `lynearm spirit --kit examples/tern-8/kit.toml --stop "10 %vol" --json`, litres left at 20
  // °C to two decimals: another way to the same engine, made once.
  for (const auto& [volume_L, strength, left_L] : {std::tuple{20.0, 30.0, 10.14},
                                                   {12.0, 25.0, 6.69},
                                                   {12.0, 35.0, 5.51},
                                                   {20.0, 20.0, 12.21}}) {
    const ChargeLeft left = spirit(volume_L, strength);
    EXPECT_NEAR(spirit::volume(*left.spirit_left).litres(), left_L, 0.005)
        << volume_L << " L at " << strength << " %vol";
    EXPECT_GT(*left.left, spirit::volume(*left.spirit_left)) << "it is hot";
  }
}

TEST_F(ALeftCharge, IsMoreOfALargerAndLessOfAStrongerOne) {
  EXPECT_LT(strip(10, 8).left->litres(), strip(12, 8).left->litres());
  EXPECT_GT(strip(12, 8).left->litres(), strip(12, 12).left->litres());
  EXPECT_GT(spirit(12, 25).left->litres(), spirit(12, 30).left->litres());
}

TEST_F(ALeftCharge, ThatDoesNotCoverTheElementIsADangerAtOnce) {
  const ChargeLeft left = strip(5);
  EXPECT_FALSE(left.left);
  ASSERT_EQ(left.findings.size(), 1U);
  EXPECT_EQ(left.findings[0].weight, Weight::danger);
  EXPECT_EQ(left.findings[0].code, "element-exposed");
  EXPECT_EQ(left.findings[0].stage, "Strip");
  EXPECT_EQ(left.findings[0].says,
            "The charge is 5.0 L; the element needs 6.0 L over it and burns dry as soon as the "
            "heat is on.");
  EXPECT_EQ(left.findings[0].remedy, "Leave the heat off. Charge more.");
  // The kit alone says that too, and no more.
  EXPECT_EQ(charge_left({false, litres(5), {}}, kit).findings, left.findings);
  EXPECT_TRUE(charge_left({false, litres(7), {}}, kit).findings.empty());
  EXPECT_FALSE(charge_left({false, litres(7), {}}, kit).left);
  EXPECT_EQ(charge_left({false, litres(7), {}}, kit).needs, litres(6));
}

TEST_F(ALeftCharge, ThatEndsWithTheElementBareIsADangerWithWhereToStop) {
  const ChargeLeft left = spirit(9, 30);
  ASSERT_EQ(left.findings.size(), 1U);
  const Finding& found = left.findings[0];
  EXPECT_EQ(found.weight, Weight::danger);
  EXPECT_EQ(found.stage, "Spirit run");
  EXPECT_EQ(
      found.says,
      "Of this charge about 4.8 L is left in the boiler at the end; the element needs 6.0 "
      "L over it and burns dry.");
  double until_L = 0.0;
  ASSERT_EQ(std::sscanf(found.remedy.c_str(),
                        "Charge more, with water if need be, or stop earlier, before %lf L has "
                        "come over.",
                        &until_L),
            1)
      << found.remedy;
  // Stopped there the element is covered; a little later, what is lost on the way to the jar
  // and all, it is not.
  const Drawn drawn = medians(kit);
  const vapour::BoilingCurve curve(kit.place.pressure);
  RunWish wish = spirit_wish(recipe.spirit_run, drawn);
  const still::Charge pot{spirit::lot(litres(9), percent(30)), {}, kit.place.ambient};
  for (const auto& [over_L, covered] : {std::pair{until_L, true}, {until_L + 0.2, false}}) {
    wish.stop.collected = litres(over_L);
    const RunPlan run = plan_run(pot, wish, kit, drawn, curve);
    ASSERT_EQ(run.run.ending, still::Ending::collected);
    EXPECT_EQ(run.left_in_pot >= litres(6), covered) << over_L;
  }
}

TEST_F(ALeftCharge, ThatIsBareFromItsFirstDropIsNotHeated) {
  needs(8);
  kit.still.coil_holds = litres(1.5);
  const ChargeLeft left = spirit(8.1, 30);
  ASSERT_EQ(left.findings.size(), 1U);
  EXPECT_EQ(left.findings[0].remedy, "Charge more, with water if need be, or do not heat it.");
}

TEST_F(ALeftCharge, ThatNearlyShowsTheElementIsACautionAndOneWellCoveredIsNot) {
  const ChargeLeft near = spirit(12, 30);
  ASSERT_EQ(near.findings.size(), 1U);
  EXPECT_EQ(near.findings[0].weight, Weight::caution);
  EXPECT_EQ(near.findings[0].code, "element-nearly-exposed");
  EXPECT_EQ(near.findings[0].says,
            "Of this charge about 6.3 L is left over an element that needs 6.0 L.");
  EXPECT_EQ(near.findings[0].remedy, "Watch the level; stop before it shows.");
  EXPECT_TRUE(spirit(20, 30).findings.empty());
  // The same figures that a plan warns by.
  needs(plan.spirit.one.left_in_pot.litres() / element_soon_shows - 1e-6);
  EXPECT_TRUE(spirit(plan.spirit.one.charge_volume.litres()).findings.empty());
  needs(plan.spirit.one.left_in_pot.litres() / element_soon_shows + 1e-6);
  EXPECT_EQ(spirit(plan.spirit.one.charge_volume.litres()).findings.size(), 1U);
}

TEST_F(ALeftCharge, OverAFlameIsToldWithoutAFinding) {
  kit.still.boiler.heat = BoilerHeat::flame;
  needs(0);
  const ChargeLeft left = spirit(2, 30);
  EXPECT_EQ(left.needs, Volume{});
  EXPECT_GT(left.left->litres(), 0.5);
  EXPECT_TRUE(left.findings.empty());
}

TEST_F(ALeftCharge, OfARunThatEndsByVolumeOrByTheHeadEndsThere) {
  recipe.spirit_run.tails_end = litres(3);
  const ChargeLeft by_volume = spirit(12, 30);
  const spirit::Lot over = spirit::lot(litres(12), percent(30)) - *by_volume.spirit_left;
  EXPECT_NEAR(spirit::volume(over).litres(), 3.0, 1e-6);
  recipe.spirit_run.tails_end = units::Temperature::celsius(96.0);
  EXPECT_GT(spirit(12, 30).left->litres(), 3.0);
}

TEST_F(ALeftCharge, OnTheGrainHasItsGrainInThePot) {
  recipe.mash.sparges.clear();
  recipe.mash.on_the_grain = true;
  recipe.mash.cook->water = litres(26);
  recipe.mash.water = litres(24);
  kit.vessels[1].heat = units::Power::kilowatts(3.0);
  plan = make(recipe, kit);
  const RunPlan& planned = plan.strip.one;
  ASSERT_GT(planned.solids, units::Mass{});
  EXPECT_NEAR(strip(planned.charge_volume.litres()).left->litres(),
              planned.left_in_pot.litres(), 1e-9);
  const ChargeLeft half = strip(planned.charge_volume.litres() / 2.0);
  const double grain_L = planned.solids.kilograms() / 2.0 * mash::grain_displacement_L_per_kg;
  EXPECT_GT(half.left->litres(), spirit::volume(*half.spirit_left).litres() + grain_L);
}

TEST_F(ALeftCharge, ThatIsNoneIsRefusedByItsStrength) {
  EXPECT_EQ(refusal(true, 12, 0),
            "strength is \"0 % alcohol by mass\"; accepted: a wash or spirit with alcohol in "
            "it.");
  EXPECT_EQ(refusal(false, 12, 100).find("strength is \"100.0 %vol\"; accepted: up to 9"), 0U);
  // Its first drops are below the strength that ends it.
  EXPECT_EQ(refusal(false, 12, 0.5).find("strip.stop is \"10.0 %vol\"; accepted: less than"),
            0U);
}

}  // namespace
}  // namespace lynearm::plan
