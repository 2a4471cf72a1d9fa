#include "wood/evaporation.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <iostream>

#include "base/error.hpp"
#include "vapour/activity.hpp"
#include "vapour/pure.hpp"

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

// Four years of a refill cask of 200 L at 62.5 %vol.
Rested four_years(double t_C, double humidity) {
  return rest(fill(200.0, 62.5), walls(Volume::litres(200.0), false),
              {Temperature::celsius(t_C), Share::fraction(humidity)}, Duration::years(4.0));
}

TEST(Evaporation, the_permeabilities_are_those_of_their_calibration) {
  // They hang on the activities of vapour/: where these change, so have they to.
  const Rested r = four_years(15.0, 0.65);
  EXPECT_NEAR(r.loss_per_year.percent(), 2.0, 0.001);
  EXPECT_NEAR(r.course.back().strength.percent(), 62.5, 0.005);
}

TEST(Evaporation, a_table_with_other_activities_is_met_to_a_per_cent_of_the_waters) {
  // Our own table, worked separately with another set of NRTL values: loss of volume a year and
  // strength in the end. No source; it shows what the choice of activities moves. Tolerance:
  // half the last printed digit, and what a per cent of the water's activity does. A per cent,
  // because so far from the best measurement the model is itself: at 30 °C Pemberton and Mash
  // (tests/published/data/vle_ethanol_water.csv) have 0.8140 at x 0.32385, where this spirit
  // stands; asserted below. At 30 °C and 75 % the water's pressure in the spirit is a twentieth
  // above the air's, and a per cent of it moves 0.3 %vol.
  struct Row {
    double t_C, humidity, loss_percent, strength;
  };
  for (const auto& row :
       {Row{10, 0.85, 0.7, 60.6}, Row{15, 0.65, 2.0, 62.5}, Row{15, 0.80, 1.25, 60.6},
        Row{20, 0.50, 3.8, 65.5}, Row{25, 0.50, 5.1, 66.8}, Row{30, 0.75, 3.8, 59.5}}) {
    const Rested r = four_years(row.t_C, row.humidity);
    // Of the water's pressure over the spirit, some 0.8 of the pure water's, a per cent.
    const Rested damper = four_years(row.t_C, row.humidity + 0.008);
    const double loss = r.loss_per_year.percent(), end = r.course.back().strength.percent();
    std::cout << row.t_C << " °C, " << row.humidity << ": " << loss << " % a year, " << end
              << " %vol\n";
    EXPECT_NEAR(loss, row.loss_percent, 0.05 + std::abs(damper.loss_per_year.percent() - loss))
        << row.t_C;
    EXPECT_NEAR(end, row.strength,
                0.05 + std::abs(damper.course.back().strength.percent() - end))
        << row.t_C;
  }
}

TEST(Evaporation, the_waters_activity_in_a_cask_is_within_a_per_cent_or_so_of_the_measured) {
  // Pemberton and Mash 1978, 303.15 K: 9.085 kPa, x 0.32385, y 0.6194. Disagrees by 1.1 %.
  const auto t = Temperature::kelvins(303.15);
  const double measured =
      (1.0 - 0.6194) * 9085.0 / vapour::vapour_pressure(vapour::Substance::water, t).pascals();
  const double ours =
      (1.0 - 0.32385) *
      vapour::activity_coefficients(units::MoleFraction::fraction(0.32385), t).water;
  EXPECT_NEAR(ours / measured, 0.989, 0.001);
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
  // the tropics low at 75 % humidity (3.7 %), and near 7 % only in drier air; it was made for a
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
