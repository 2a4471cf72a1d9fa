#include "spirit/weighing.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "base/error.hpp"
#include "spirit/reduction.hpp"
#include "spirit/refusal.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Density;
using units::Mass;
using units::MassFraction;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

Density kgm3(double v) { return Density::kilograms_per_cubic_metre(v); }
const Flask flask_100mL{Volume::millilitres(100.0)};

// ISO 8655-6, volume of water for each gram it weighs in air at 1013 hPa (from memory); walls
// do not grow there.
TEST(Weighing, a_gram_of_water_in_air_is_the_published_volume) {
  struct Row {
    double t_C, mL_per_g;
  };
  constexpr Row rows[] = {{15.0, 1.0020}, {20.0, 1.0029}, {25.0, 1.0040}, {30.0, 1.0054}};
  for (const Row& row : rows) {
    const Flask flask = flask_by_water(Mass::grams(1.0), Temperature::celsius(row.t_C), {});
    EXPECT_NEAR(flask.volume.millilitres(), row.mL_per_g, 0.0000501) << row.t_C << " °C";
  }
}

TEST(Weighing, a_flask_of_spirit_by_hand) {
  // 100 mL of 50 %vol (930.14 kg/m³) at 20 °C: (93.014 - 0.12) / (1 - 1.2/8000) = 92.908 g.
  const Mass shown =
      flask_shows(mass_fraction(VolumeStrength::percent(50.0)), reference_20C, flask_100mL);
  EXPECT_NEAR(shown.grams(), 92.908, 0.0005);
  // At 30 °C the glass holds 100 (1 + 10 x 9.9e-6) mL.
  const MassFraction half = mass_fraction(VolumeStrength::percent(50.0));
  const Temperature warm = Temperature::celsius(30.0);
  const double rho = density(half, warm).kilograms_per_cubic_metre();
  EXPECT_NEAR(flask_shows(half, warm, flask_100mL).grams(),
              100.0099e-3 * (rho - 1.2) / (1.0 - 1.2 / 8000.0), 1e-9);
}

TEST(Weighing, the_air_left_out_makes_half_a_percent_too_much) {
  const MassFraction half = mass_fraction(VolumeStrength::percent(50.0));
  const Mass shown = flask_shows(half, reference_20C, flask_100mL);
  const Weighing no_air{{}, {Density{}}};
  const double without =
      volume_strength(mass_fraction_in_flask(shown, reference_20C, flask_100mL, no_air))
          .percent();
  EXPECT_NEAR(without - 50.0, 0.538, 0.001);
}

TEST(Weighing, a_heavier_flaskful_is_weaker) {
  double before = std::numeric_limits<double>::infinity();
  for (int p = 0; p <= 100; ++p) {
    const double grams =
        flask_shows(MassFraction::percent(p), reference_20C, flask_100mL).grams();
    EXPECT_LT(grams, before);
    before = grams;
  }
}

TEST(Weighing, the_tare_is_taken_off_on_both_sides) {
  const Weighing with{Mass::grams(61.27)};
  const MassFraction p = MassFraction::percent(40.0);
  const Mass alone = flask_shows(p, reference_20C, flask_100mL);
  const Mass whole = flask_shows(p, reference_20C, flask_100mL, with);
  EXPECT_NEAR((whole - alone).grams(), 61.27, 1e-12);
  EXPECT_NEAR(mass_fraction_in_flask(whole, reference_20C, flask_100mL, with).fraction(), 0.4,
              1e-12);
}

Weighing any_weighing() {
  return {Mass::grams(*rc::gen::inRange(0, 5000000) / 1000.0),
          {kgm3(*rc::gen::inRange(0, 1500) / 1000.0)}};
}
Temperature any_temperature() {
  return Temperature::celsius(*rc::gen::inRange(-2000, 4001) / 100.0);
}
MassFraction any_spirit() { return MassFraction::fraction(*rc::gen::inRange(0, 100001) / 1e5); }
Lot any_lot() {
  return {Mass::grams(*rc::gen::inRange(0, 10000000) / 100.0),
          Mass::grams(*rc::gen::inRange(1, 10000000) / 100.0)};
}

RC_GTEST_PROP(WeighingProperty, the_spirit_comes_back_from_its_flask, ()) {
  const Weighing weighing = any_weighing();
  const Flask flask{Volume::millilitres(*rc::gen::inRange(100, 10000)),
                    {*rc::gen::inRange(0, 500) * 1e-6, reference_20C}};
  const Temperature t = any_temperature();
  const MassFraction p = any_spirit();
  const Mass shown = flask_shows(p, t, flask, weighing);
  RC_ASSERT(std::abs((mass_fraction_in_flask(shown, t, flask, weighing) - p).fraction()) <
            1e-11);
}

RC_GTEST_PROP(WeighingProperty, a_flask_measured_with_water_has_its_volume, ()) {
  const Weighing weighing = any_weighing();
  const Flask flask{Volume::millilitres(*rc::gen::inRange(100, 10000))};
  const Temperature t = any_temperature();
  const Mass shown = flask_shows({}, t, flask, weighing);
  RC_ASSERT(std::abs(flask_by_water(shown, t, flask.glass, weighing).volume / flask.volume -
                     1.0) < 1e-12);
}

RC_GTEST_PROP(WeighingProperty, a_lot_comes_back_from_its_weight, ()) {
  const Weighing weighing = any_weighing();
  const Temperature t = any_temperature();
  const Lot before = any_lot();
  const Mass shown = balance_shows(before, t, weighing);
  const Lot after = lot_weighed(shown, mass_fraction(before), t, weighing);
  // The tare's own rounding counts against a small lot.
  const double digits = 1e-15 * (shown.kilograms() + 1.0);
  RC_ASSERT(std::abs((after.ethanol - before.ethanol).kilograms()) < digits);
  RC_ASSERT(std::abs((after.water - before.water).kilograms()) < digits);
}

RC_GTEST_PROP(WeighingProperty, water_until_the_scale_shows_a_figure_makes_it_show_that, ()) {
  const Weighing weighing = any_weighing();
  const Temperature t = any_temperature();
  const Lot before = any_lot();
  const Mass shown =
      balance_shows(before, t, weighing) + Mass::grams(*rc::gen::inRange(0, 10000000) / 100.0);
  const Lot after = before + Lot{{}, water_weighed_in(before, shown, t, weighing)};
  RC_ASSERT(std::abs(balance_shows(after, t, weighing) / shown - 1.0) < 1e-14);
  RC_ASSERT(after.ethanol == before.ethanol);
}

RC_GTEST_PROP(WeighingProperty, more_on_the_scale_is_more_water, ()) {
  const Temperature t = any_temperature();
  const Lot before = any_lot();
  const Mass start = balance_shows(before, t);
  const Mass step = Mass::grams(*rc::gen::inRange(1, 100000) / 100.0);
  RC_ASSERT(water_weighed_in(before, start + step, t) <
            water_weighed_in(before, start + 2.0 * step, t));
}

TEST(Weighing, the_water_of_a_reduction_is_found_again_on_the_scale) {
  // 4 kg of 62.4 %vol brought to 40 %vol in a can of 0.5 kg.
  const Lot spirit = lot(Mass::kilograms(4.0), VolumeStrength::percent(62.4));
  const Reduction down = reduce(spirit, VolumeStrength::percent(40.0));
  const Weighing can{Mass::kilograms(0.5)};
  const Mass shown = balance_shows(down.result, reference_20C, can);
  EXPECT_NEAR(water_weighed_in(spirit, shown, reference_20C, can).kilograms(),
              down.water.kilograms(), 1e-14);
  // The scale shows less than the masses: (m / rho - m / 8000) 1.2.
  const double mass_kg = down.result.mass().kilograms();
  EXPECT_NEAR(shown.kilograms(), 0.5 + mass_kg * (1.0 - 1.2 / 948.05 + 1.2 / 8000.0), 2e-6);
}

TEST(Weighing, no_water_is_wanted_when_the_scale_shows_it_already) {
  for (const double p : {0.0, 0.333, 1.0}) {
    const Lot there{Mass::kilograms(3.0) * p, Mass::kilograms(3.0) * (1.0 - p)};
    const Mass shown = balance_shows(there, reference_20C);
    EXPECT_NEAR(water_weighed_in(there, shown, reference_20C).kilograms(), 0.0, 2e-15);
  }
  EXPECT_EQ(water_weighed_in({}, {}, reference_20C), Mass{});
}

TEST(Weighing, the_spirits_temperature_hardly_moves_a_weight) {
  const Lot there = lot(Mass::kilograms(10.0), VolumeStrength::percent(60.0));
  const double cold = balance_shows(there, Temperature::celsius(10.0)).grams();
  const double warm = balance_shows(there, Temperature::celsius(30.0)).grams();
  EXPECT_GT(cold, warm);
  EXPECT_NEAR(cold - warm, 0.25, 0.03);
}

TEST(Weighing, an_empty_lot_shows_the_tare) {
  EXPECT_EQ(balance_shows({}, reference_20C, {Mass::grams(812.0)}), Mass::grams(812.0));
}

TEST(Weighing, refuses_with_what_would_weigh_so) {
  EXPECT_EQ(
      base::sentence(fault_of([] {
        return mass_fraction_in_flask(Mass::grams(101.0), reference_20C, flask_100mL);
      })),
      "shown is \"101.000 g\"; accepted: 78.816 g (pure ethanol) to 99.715 g (water) with "
      "that flask at 20.0 °C.");
  const Lot there = lot(Mass::kilograms(2.0), VolumeStrength::percent(50.0));
  EXPECT_EQ(base::sentence(fault_of(
                [&] { return water_weighed_in(there, Mass::kilograms(1.9), reference_20C); })),
            "shown is \"1900.000 g\"; accepted: 1997.719 g (what it shows already) or more.");
  const Weighing can{Mass::kilograms(0.5)};
  EXPECT_EQ(base::sentence(fault_of(
                [&] { return lot_weighed(Mass::kilograms(0.4), {}, reference_20C, can); })),
            "shown is \"400.000 g\"; accepted: 500.000 g (the tare) or more.");
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(
      fault_of([&] { return lot_weighed(Mass::kilograms(nan), {}, reference_20C); }).field,
      "shown");
  EXPECT_EQ(fault_of([&] {
              return balance_shows(there, reference_20C, {Mass::kilograms(nan)});
            }).field,
            "weighing.tare");
  EXPECT_EQ(fault_of([&] { return balance_shows(there * -1.0, reference_20C); }).field, "lot");
  EXPECT_EQ(
      fault_of([&] { return density_in_flask(Mass::grams(90.0), reference_20C, {}); }).field,
      "flask.volume");
  EXPECT_EQ(fault_of([&] {
              return water_weighed_in(there, Mass::kilograms(nan), reference_20C);
            }).field,
            "shown");
}

}  // namespace
}  // namespace lynearm::spirit
