// The facts of the trade, common practice, no source: a plan of that size must land in their
// windows by its physics. Where one does not, the reason stands beside it.
#include <gtest/gtest.h>

#include "plan/plan.hpp"
#include "plan/tern.hpp"
#include "spirit/strength.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::plan {
namespace {

using units::Temperature;
using units::Volume;
using units::VolumeStrength;

// A house with a 20 L pot still: half of Tern 8 by volume, in vessels of half the size.
Kit small_kit() {
  Kit kit = tern::kit_8();
  for (Vessel& vessel : kit.vessels) {
    vessel.total = vessel.total * 0.5;
    vessel.working = vessel.working * 0.5;
    vessel.wall_mass = vessel.wall_mass * 0.6;
    vessel.loss_lid_on = vessel.loss_lid_on * 0.63;
    vessel.loss_open = vessel.loss_open * 0.63;
    vessel.cooling_coil = vessel.cooling_coil * 0.6;
    vessel.heat = vessel.heat * 0.5;
  }
  kit.still.boiler.total = Volume::litres(20.0);
  kit.still.boiler.wall_mass = units::Mass::kilograms(7.0);
  kit.still.boiler.loss = units::HeatLoss::watts_per_kelvin(4.0);
  kit.still.boiler.power = units::Power::kilowatts(2.0);
  kit.still.boiler.element_covered_above = {};
  return kit;
}

Recipe small_recipe() {
  Recipe recipe = tern::recipe_8();
  for (BillLine& line : recipe.bill) line.mass = line.mass * 0.5;
  recipe.mash.cook->water = recipe.mash.cook->water * 0.5;
  for (Sparge& sparge : recipe.mash.sparges) sparge.water = sparge.water * 0.5;
  recipe.sugar_boil->water = recipe.sugar_boil->water * 0.5;
  recipe.ferment.fill_to = *recipe.ferment.fill_to * 0.5;
  recipe.spirit_run.feints.reset();
  recipe.spirit_run.foreshots_end = Volume::millilitres(100.0);
  recipe.spirit_run.heads_end = Volume::millilitres(500.0);
  return recipe;
}

class TradeFacts : public ::testing::Test {
 protected:
  const Kit kit = small_kit();
  const Plan plan = make(small_recipe(), kit);
};

TEST_F(TradeFacts, boiled_maize_lands_at_85_to_95) {
  const double landed = plan.mash.mash->cook->landed.contents.temperature.celsius();
  EXPECT_GE(landed, 85.0);
  EXPECT_LE(landed, 95.0);
}

TEST_F(TradeFacts, malts_go_in_at_about_69_and_settle_at_65_to_66) {
  EXPECT_NEAR(plan.mash.mash->dough_in.celsius(), 69.0, 1.0);
  EXPECT_NEAR(plan.mash.mash->doughed_in.temperature.celsius(), 65.5, 0.5);
}

TEST_F(TradeFacts, a_second_sparge_is_worth_it_and_a_third_hardly) {
  Recipe three = small_recipe();
  three.mash.sparges.push_back(three.mash.sparges.back());
  const Plan with_three = make(three, kit);
  std::vector<double> gained;
  for (const mash::RunOff& run_off : with_three.mash.mash->drained->run_offs) {
    if (run_off.kind == mash::RunOffKind::sparge) gained.push_back(run_off.gained.percent());
  }
  ASSERT_EQ(gained.size(), 3U);
  EXPECT_GT(gained[0], gained[1]);
  EXPECT_GT(gained[1], gained[2]);
  EXPECT_GT(gained[1], 4.0);  // the border of the finding "sparge-not-worth-it"
  EXPECT_LT(gained[2], 4.0);
}

TEST_F(TradeFacts, a_grain_and_sugar_wash_starts_at_1_055_to_1_070) {
  EXPECT_GE(plan.ferment.original_gravity.ratio(), 1.055);
  EXPECT_LE(plan.ferment.original_gravity.ratio(), 1.070);
}

TEST_F(TradeFacts, it_ends_dry_in_about_five_days_at_25_degrees) {
  EXPECT_LT(plan.ferment.final_gravity.ratio(), 1.000);
  EXPECT_GT(plan.ferment.dry_after.days(), 3.0);
  EXPECT_LT(plan.ferment.dry_after.days(), 7.0);
}

TEST_F(TradeFacts, three_strips_make_about_one_spirit_charge) {
  const Volume three = spirit::volume(plan.strip.one.collected * 3.0);
  EXPECT_NEAR(three / plan.spirit.fill_limit, 1.0, 0.35);
}

TEST_F(TradeFacts, the_head_reaches_90_degrees_before_the_spout_falls_to_56) {
  const still::Run& run = plan.spirit.one.run;
  const auto head = still::when_head_rises_to(run, Temperature::celsius(90.0));
  const auto spout = still::when_spout_falls_to(run, VolumeStrength::percent(56.0));
  ASSERT_TRUE(head && spout);
  EXPECT_LT(head->collected, spout->collected);
}

TEST_F(TradeFacts, spirit_leaves_near_20_degrees_while_the_water_leaves_warm) {
  for (const RunPlan* run : {&plan.strip.one, &plan.spirit.one}) {
    EXPECT_TRUE(run->coolant.cooling.spout_reachable);
    EXPECT_TRUE(run->coolant.cooling.flow_enough);
    EXPECT_GT(run->coolant.leaving.celsius(), 45.0);
  }
}

TEST_F(TradeFacts, hearts_are_a_good_third_of_the_run_between_650_mL_and_56) {
  EXPECT_GT(plan.spirit.hearts.volume.litres(), 2.0);
  EXPECT_GT(plan.spirit.hearts.strength.percent(), 65.0);
  EXPECT_LT(plan.spirit.hearts.strength.percent(), 75.0);
}

// Five strips of 22 L from 110 L of 8 %vol, 10 % at the spout, no reflux: about 26.5 L of low
// wines, more than one such boiler takes.
TEST(TradeCases, of_110_litres_in_22_litre_charges) {
  const vapour::BoilingCurve curve(units::Pressure::kilopascals(101.325));
  still::RunSetting setting;
  setting.heating = {units::Power::kilowatts(3.0), units::Share::percent(100.0), {}, {}};
  still::Stop stop;
  stop.spout_strength = VolumeStrength::percent(10.0);
  const still::Charge charge{spirit::lot(Volume::litres(22.0), VolumeStrength::percent(8.0)),
                             {},
                             Temperature::celsius(20.0)};
  const still::Run run = still::distil(charge, setting, curve, stop);
  EXPECT_NEAR(spirit::volume(run.distillate() * 5.0).litres(), 26.5, 0.3);
}

}  // namespace
}  // namespace lynearm::plan
