#include "wood/evaporation.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"

namespace lynearm::wood {
namespace {

using spirit::Lot;
using units::Duration;
using units::Share;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

Lot fill(double litres, double percent) {
  return spirit::lot(Volume::litres(litres), VolumeStrength::percent(percent));
}

TEST(Evaporation, the_table_of_the_calibration_is_met) {
  // Worked separately from the same permeabilities (four years, 200 L, 62.5 %vol: loss of
  // volume a year and strength in the end). Tolerances: half the last printed digit, and the
  // table's own activities, which came from another set of NRTL values.
  // At 30 °C and 75 % the water's pressure in the spirit stands a twentieth above the air's, so
  // that a per cent of activity moves a fifth of what drives it, and 0.1 of strength.
  struct Row {
    double t_C, humidity, loss_percent, strength, tolerance = 0.15;
  };
  for (const auto& row :
       {Row{10, 0.85, 0.7, 60.6}, Row{15, 0.65, 2.0, 62.5}, Row{15, 0.80, 1.25, 60.6},
        Row{20, 0.50, 3.8, 65.5}, Row{25, 0.50, 5.1, 66.8}, Row{30, 0.75, 3.8, 59.5, 0.3}}) {
    const Rested r = rest(fill(200.0, 62.5), walls(Volume::litres(200.0), false),
                          {Temperature::celsius(row.t_C), Share::fraction(row.humidity)},
                          Duration::years(4.0));
    EXPECT_NEAR(r.loss_per_year.percent(), row.loss_percent, 0.06) << row.t_C;
    EXPECT_NEAR(r.course.back().strength.percent(), row.strength, row.tolerance) << row.t_C;
  }
}

TEST(Evaporation, damp_air_lowers_the_strength_and_dry_air_raises_it) {
  const auto end = [](double humidity) {
    return rest(fill(200.0, 62.5), walls(Volume::litres(200.0)),
                {Temperature::celsius(15.0), Share::fraction(humidity)}, Duration::years(3.0))
        .course.back()
        .strength;
  };
  EXPECT_LT(end(0.85).percent(), 62.5);
  EXPECT_GT(end(0.45).percent(), 62.5);
}

TEST(Evaporation, a_small_cask_loses_more_of_its_spirit) {
  const auto loss = [](double litres) {
    return rest(fill(litres, 62.5), walls(Volume::litres(litres), false), {},
                Duration::years(1.0))
        .loss_per_year;
  };
  // By hand for 20 L at this climate with staves of 25 mm: 4.3 %; ours are thinner, by 1.58.
  EXPECT_NEAR(loss(20.0).percent(), 4.3 * 1.58, 0.2);
  EXPECT_GT(loss(20.0), loss(200.0) * 2.0);
}

TEST(Evaporation, a_tropical_cellar_loses_several_times_a_cool_one) {
  // Scotland 1.5 to 2.5 %, tropics 7 to 10 %: common practice, no source. Our calibration finds
  // the tropics low at 75 % humidity (3.8 %), and near 7 % only in drier air; it was made for a
  // cool cellar, and hot warehouses are drier and draughtier than the coast outside.
  const auto loss = [](double t_C, double humidity) {
    return rest(fill(200.0, 62.5), walls(Volume::litres(200.0), false),
                {Temperature::celsius(t_C), Share::fraction(humidity)}, Duration::years(4.0))
        .loss_per_year.percent();
  };
  EXPECT_GT(loss(12.0, 0.70), 1.0);
  EXPECT_LT(loss(12.0, 0.70), 2.5);
  EXPECT_GT(loss(33.0, 0.45), 6.5);
  EXPECT_LT(loss(33.0, 0.45), 10.0);
}

RC_GTEST_PROP(EvaporationProperty, mass_is_kept_and_volume_only_falls, ()) {
  const double litres = *rc::gen::inRange(5, 400);
  const Lot filled = fill(litres, *rc::gen::inRange(30, 75));
  const Rested r = rest(filled, walls(Volume::litres(litres), *rc::gen::inRange(0, 2) == 1),
                        {Temperature::celsius(*rc::gen::inRange(2, 35)),
                         Share::percent(*rc::gen::inRange(30, 80))},
                        Duration::months(*rc::gen::inRange(0, 90)));
  const Lot sum = r.course.back().lot + r.soaked + r.evaporated;
  RC_ASSERT(std::abs((sum.ethanol - filled.ethanol).kilograms()) < 1e-9);
  RC_ASSERT(std::abs((sum.water - filled.water).kilograms()) < 1e-9);
  RC_ASSERT(r.evaporated.ethanol >= units::Mass{});
  for (std::size_t i = 1; i < r.course.size(); ++i) {
    RC_ASSERT(r.course[i].at >= r.course[i - 1].at);
    RC_ASSERT(r.course[i].volume.litres() <= r.course[i - 1].volume.litres() + 1e-9);
  }
}

TEST(Evaporation, a_quarter_of_the_step_changes_nothing_that_shows) {
  // A year in monthly steps against 48 calls of a quarter month each.
  Lot lot = fill(20.0, 60.0);
  const Walls w = walls(Volume::litres(20.0), false);
  const Cellar cellar{Temperature::celsius(25.0), Share::fraction(0.5)};
  const Lot once = rest(lot, w, cellar, Duration::years(1.0)).course.back().lot;
  for (int i = 0; i < 48; ++i)
    lot = rest(lot, w, cellar, Duration::years(1.0 / 48.0)).course.back().lot;
  EXPECT_NEAR(lot.mass().kilograms(), once.mass().kilograms(), 1e-4);
}

TEST(Evaporation, a_tiny_cask_in_the_heat_ends_early_and_not_below_nothing) {
  const Rested r =
      rest(fill(2.0, 60.0), walls(Volume::litres(2.0), false),
           {Temperature::celsius(38.0), Share::fraction(0.1)}, Duration::years(20.0));
  EXPECT_LT(r.course.back().at.years(), 20.0);
  EXPECT_GT(r.course.back().lot.ethanol.kilograms(), 0.0);
  EXPECT_GT(r.course.back().lot.water.kilograms(), 0.0);
}

TEST(Evaporation, glass_keeps_all_but_what_the_staves_drink_and_the_closure_lets_go) {
  const Lot filled = fill(5.0, 60.0);
  const GlassRest g = rest_in_glass(filled, Stave{}, 2.0, Duration::years(1.0));
  const Lot sum = g.left + g.soaked + g.escaped;
  EXPECT_NEAR(sum.mass().kilograms(), filled.mass().kilograms(), 1e-12);
  EXPECT_NEAR(spirit::volume(g.soaked).millilitres(), 75.0, 1e-6);
  EXPECT_NEAR(spirit::strength(g.left).percent(), 60.0, 1e-9);
}

TEST(Evaporation, more_staves_than_spirit_is_refused) {
  EXPECT_THROW((void)rest_in_glass(fill(0.5, 60.0), Stave{}, 40.0, Duration::years(1.0)),
               base::InputError);
  EXPECT_THROW(
      (void)rest(fill(200.0, 62.5), walls(Volume::litres(200.0)),
                 {Temperature::celsius(60.0), Share::fraction(0.5)}, Duration::years(1.0)),
      base::InputError);
  EXPECT_THROW((void)rest({}, walls(Volume::litres(200.0)), {}, Duration::years(1.0)),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::wood
