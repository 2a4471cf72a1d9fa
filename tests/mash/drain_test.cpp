#include "mash/drain.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <vector>

#include "base/error.hpp"
#include "mash/bills.hpp"
#include "mash/sugar_boil.hpp"

namespace lynearm::mash {
namespace {

using units::Duration;
using units::Mass;
using units::Plato;
using units::Share;
using units::Temperature;
using units::Volume;
using units::VolumeFlow;

TEST(Drain, two_run_offs_of_20_and_15_from_10_held_leave_an_eighth_behind) {
  // Arithmetic of the mass balance: 1 - (10/30)(10/25) = 0.867.
  const Bill bill = all_malt(10.0);
  const Mass held = held_water(bill, Share::percent(80.0));
  const double scale = held.kilograms() / 10.0;
  const std::vector<Mass> sparges = {Mass::kilograms(15.0 * scale)};
  const wort::Wort liquor{Mass::kilograms(30.0 * scale), Mass::kilograms(6.0 * scale)};
  const Drained drained = drain(bill, liquor, {}, sparges, {}, Share::percent(86.0));
  EXPECT_NEAR(drained.efficiency.fraction(), 1.0 - (10.0 / 30.0) * (10.0 / 25.0), 1e-12);
}

TEST(Drain, malt_keeps_about_a_litre_of_water_a_kilogram_drained_and_0_55_to_0_65_squeezed) {
  // Common practice, no source.
  const Bill bill = all_malt(1.0);
  EXPECT_NEAR(held_water(bill, Share::percent(80.0)).kilograms(), 0.85, 0.2);
  EXPECT_NEAR(held_water(bill, Share::percent(71.5)).kilograms(), 0.55, 0.08);
}

RC_GTEST_PROP(Drain, water_and_extract_are_conserved_and_each_sparge_brings_less, ()) {
  const Bill bill = {line("maize-cracked", *rc::gen::inRange(1, 10), Role::cooked),
                     line("barley-malt-pale", *rc::gen::inRange(1, 10))};
  const Potential potential = extract_potential(bill);
  const wort::Wort liquor{potential.mass * (0.1 * *rc::gen::inRange(21, 50)),
                          potential.extract * 0.97};
  const std::vector<Mass> sparges(*rc::gen::inRange<std::size_t>(0, 5),
                                  Mass::kilograms(*rc::gen::inRange(1, 12)));
  Draining how;
  how.mixing = Share::percent(*rc::gen::inRange(50, 100));
  if (*rc::gen::arbitrary<bool>()) how.squeezed_moisture = Share::percent(70.0);
  how.dead_volume = Volume::litres(0.1 * *rc::gen::inRange(0, 10));
  const Drained drained =
      drain(bill, liquor, potential.starch * 0.03, sparges, how, Share::percent(88.0));

  Mass water_in = liquor.water;
  for (const Mass& sparge : sparges) water_in += sparge;
  RC_ASSERT(std::abs((drained.collected + drained.kept).water / water_in - 1.0) < 1e-12);
  RC_ASSERT(std::abs((drained.collected + drained.kept).extract / liquor.extract - 1.0) <
            1e-12);
  for (std::size_t i = 2; i < drained.run_offs.size(); ++i) {
    if (drained.run_offs[i].kind != RunOffKind::sparge) continue;
    RC_ASSERT(drained.run_offs[i].gained <= drained.run_offs[i - 1].gained);
    RC_ASSERT(drained.run_offs[i].gravity <= drained.run_offs[i - 1].gravity);
  }
  RC_ASSERT(drained.kept.extract >= Mass());
}

TEST(Drain, the_same_water_in_two_sparges_beats_one) {
  const Bill bill = all_malt();
  const wort::Wort liquor{Mass::kilograms(28.0), Mass::kilograms(7.5)};
  const std::vector<Mass> once = {Mass::kilograms(12.0)};
  const std::vector<Mass> twice(2, Mass::kilograms(6.0));
  EXPECT_GT(drain(bill, liquor, {}, twice, {}, Share::percent(86.0)).efficiency,
            drain(bill, liquor, {}, once, {}, Share::percent(86.0)).efficiency);
}

TEST(Drain, squeezing_brings_more_of_the_same) {
  const Bill bill = all_malt();
  const wort::Wort liquor{Mass::kilograms(28.0), Mass::kilograms(7.5)};
  Draining how;
  how.squeezed_moisture = Share::percent(71.0);
  const Drained drained = drain(bill, liquor, {}, {}, how, Share::percent(86.0));
  ASSERT_EQ(drained.run_offs.size(), 2u);
  EXPECT_EQ(drained.run_offs[1].kind, RunOffKind::squeeze);
  EXPECT_NEAR(drained.run_offs[1].gravity.degrees(), drained.run_offs[0].gravity.degrees(),
              1e-9);
}

TEST(Drain, grain_that_takes_all_the_water_lets_nothing_run) {
  const Drained drained = drain(all_malt(), {Mass::kilograms(3.0), Mass::kilograms(1.0)}, {},
                                {}, {}, Share::percent(86.0));
  EXPECT_EQ(drained.volume, Volume());
  EXPECT_EQ(drained.efficiency, Share());
}

TEST(Drain, on_the_grain_everything_stays) {
  const Bill bill = maize_and_malts();
  const wort::Wort liquor{Mass::kilograms(28.0), Mass::kilograms(7.0)};
  const OnTheGrain whole = on_the_grain(bill, liquor, Mass::kilograms(0.2));
  EXPECT_EQ(whole.liquor.extract, liquor.extract);
  EXPECT_GT(whole.volume, wort::volume(liquor));
  EXPECT_NEAR(whole.solids.kilograms(), extract_potential(bill).insoluble.kilograms() + 0.2,
              1e-12);
}

TEST(Drain, silly_input_is_refused) {
  const wort::Wort liquor{Mass::kilograms(28.0), Mass::kilograms(7.0)};
  Draining how;
  how.squeezed_moisture = Share::percent(85.0);
  EXPECT_THROW((void)drain(all_malt(), liquor, {}, {}, how, Share::percent(86.0)),
               base::InputError);
  EXPECT_THROW((void)held_water(all_malt(), Share::percent(95.0)), base::InputError);
}

TEST(SugarBoil, a_kilogram_of_sugar_gives_384_to_387_points_litres) {
  // From memory: thousandths of gravity above one, times litres, from a kilogram.
  SugarBoilSteps steps;
  steps.mass = Mass::kilograms(1.0);
  steps.sugar_temperature = steps.water_temperature = Temperature::celsius(20.0);
  steps.water = Volume::litres(9.0);
  const SugarSolution solution = sugar_boil(ingredient("sugar"), steps);
  const double points = (wort::specific_gravity(solution.wort).ratio() - 1.0) * 1000.0 *
                        wort::volume(solution.wort).litres();
  EXPECT_GE(points, 384.0);
  EXPECT_LE(points, 387.0);
}

RC_GTEST_PROP(SugarBoil, mass_is_sugar_and_water_less_what_boiled_away, ()) {
  SugarBoilSteps steps;
  steps.mass = Mass::kilograms(0.1 * *rc::gen::inRange(1, 100));
  steps.sugar_temperature = Temperature::celsius(18.0);
  steps.water = Volume::litres(*rc::gen::inRange(3, 30));
  steps.water_temperature = Temperature::celsius(20.0);
  steps.time = Duration::minutes(*rc::gen::inRange(0, 60));
  steps.boil_off = VolumeFlow::litres_per_hour(1.5);
  const auto id = *rc::gen::elementOf(std::vector<std::string>{"sugar", "honey", "molasses"});
  const SugarSolution solution = sugar_boil(ingredient(id), steps);
  const double in_kg =
      steps.mass.kilograms() + water(steps.water, steps.water_temperature).water.kilograms();
  const double out_kg =
      solution.wort.mass().kilograms() + solution.boiled_away.litres() * 0.99820123;
  RC_ASSERT(std::abs(out_kg - in_kg) < 1e-9);
  RC_ASSERT(solution.heat_to_boil.joules() > 0.0);
}

TEST(SugarBoil, a_grain_is_refused) {
  SugarBoilSteps steps;
  steps.mass = Mass::kilograms(1.0);
  steps.water = Volume::litres(5.0);
  steps.water_temperature = steps.sugar_temperature = Temperature::celsius(20.0);
  EXPECT_THROW((void)sugar_boil(ingredient("rye-malt"), steps), base::InputError);
}

}  // namespace
}  // namespace lynearm::mash
