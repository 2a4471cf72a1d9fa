#include "wort/scales.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "base/error.hpp"
#include "wort/gravity.hpp"

namespace lynearm::wort {
namespace {

using spirit::SpecificGravity60F;
using units::Plato;
using units::RefractiveIndex;
using units::SpecificGravity;
using units::Temperature;

TEST(Scales, brix_and_plato_are_one_count) {
  static_assert(plato(brix(Plato::degrees(12.3))) == Plato::degrees(12.3));
  static_assert(brix(Plato::degrees(12.3)) == Brix::degrees(12.3));
}

TEST(Scales, air_spreads_a_gravity_by_what_it_lifts) {
  // Weighed: 1.1 L-weights of water at 20 °C in air of 1.2 kg/m³, by the definition.
  const double water = water_at_20C.kilograms_per_cubic_metre();
  const double by_weighing = (1.1 * water - 1.2) / (water - 1.2);
  EXPECT_NEAR(apparent_gravity(SpecificGravity::ratio(1.1)).ratio(), by_weighing, 1e-14);
  EXPECT_NEAR(by_weighing, 1.10012, 0.000005);
  for (const double sg : {0.98, 1.0, 1.05, 1.17})
    EXPECT_NEAR(specific_gravity(apparent_gravity(SpecificGravity::ratio(sg))).ratio(), sg,
                1e-15);
  EXPECT_EQ(apparent_gravity(SpecificGravity::ratio(1.0)).ratio(), 1.0);
}

TEST(Scales, gravity_at_60F_is_the_density_there_over_waters) {
  for (const double p : {0.0, 5.0, 12.0, 20.0, 40.0})
    EXPECT_NEAR(specific_gravity_60F(Plato::degrees(p)).ratio(),
                density(Plato::degrees(p), spirit::reference_60F) /
                    water_density(spirit::reference_60F),
                1e-14)
        << p;
}

TEST(Scales, gravity_at_60F_stands_above_that_at_20C) {
  // 20 % sucrose: 1.0833 at 60/60 °F against 1.0830 at 20/20 (in air), both from memory, half
  // a last digit each.
  const Plato twenty = Plato::degrees(20.0);
  EXPECT_NEAR(specific_gravity_60F(twenty).ratio() - specific_gravity(twenty).ratio(), 0.0003,
              0.0001);
  EXPECT_EQ(specific_gravity_60F(Plato::degrees(0.0)).ratio(), 1.0);
}

RC_GTEST_PROP(ScalesProperty, extract_to_gravity_at_60F_and_back_is_the_identity, ()) {
  const double p = *rc::gen::inRange(-7600, 40001) / 1000.0;
  RC_ASSERT(std::abs(plato(specific_gravity_60F(Plato::degrees(p))).degrees() - p) < 1e-11);
}

RC_GTEST_PROP(ScalesProperty, brix_to_index_and_back_is_the_identity, ()) {
  const double b = *rc::gen::inRange(0, 40001) / 1000.0;
  const Temperature t = Temperature::celsius(*rc::gen::inRange(0, 41));
  RC_ASSERT(std::abs(brix(refractive_index(Brix::degrees(b), t), t).degrees() - b) < 1e-10);
}

TEST(Scales, more_sugar_and_less_heat_bend_light_more) {
  for (int t = 0; t <= 40; t += 5) {
    for (int b = 1; b <= 40; ++b) {
      const auto here = refractive_index(Brix::degrees(b), Temperature::celsius(t));
      EXPECT_GT(here, refractive_index(Brix::degrees(b - 1), Temperature::celsius(t)));
      if (t == 0) continue;
      EXPECT_LT(here, refractive_index(Brix::degrees(b), Temperature::celsius(t - 5)));
    }
  }
}

TEST(Scales, the_table_in_the_header_is_the_one_computed) {
  // Printed there to 0.1 in the fourth place of gravity.
  struct Row {
    double extract_P, in_air, at_60F;
  };
  for (const Row& row : {Row{5, 0.2, 0.8}, Row{10, 0.5, 1.6}, Row{12, 0.6, 1.9},
                         Row{20, 1.0, 3.2}, Row{30, 1.6, 5.1}}) {
    const Plato extract = Plato::degrees(row.extract_P);
    const double sg = specific_gravity(extract).ratio();
    EXPECT_NEAR(1e4 * (apparent_gravity(SpecificGravity::ratio(sg)).ratio() - sg), row.in_air,
                0.051)
        << row.extract_P;
    EXPECT_NEAR(1e4 * (specific_gravity_60F(extract).ratio() - sg), row.at_60F, 0.051)
        << row.extract_P;
  }
}

TEST(Scales, what_the_scales_do_not_hold_is_refused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW((void)plato(SpecificGravity60F::ratio(1.18)), base::InputError);
  EXPECT_THROW((void)plato(SpecificGravity60F::ratio(0.969)), base::InputError);
  EXPECT_THROW((void)plato(SpecificGravity60F::ratio(nan)), base::InputError);
  EXPECT_THROW((void)specific_gravity_60F(Plato::degrees(nan)), base::InputError);
  EXPECT_THROW((void)refractive_index(Brix::degrees(-0.1)), base::InputError);
  EXPECT_THROW((void)refractive_index(Brix::degrees(40.1)), base::InputError);
  EXPECT_THROW((void)refractive_index(Brix::degrees(nan)), base::InputError);
  EXPECT_THROW((void)refractive_index(Brix::degrees(10.0), Temperature::celsius(41.0)),
               base::InputError);
  EXPECT_THROW((void)brix(RefractiveIndex::ratio(1.3328)), base::InputError);
  EXPECT_THROW((void)brix(RefractiveIndex::ratio(1.4001)), base::InputError);
  EXPECT_THROW((void)brix(RefractiveIndex::ratio(nan)), base::InputError);
  EXPECT_EQ(brix(RefractiveIndex::ratio(1.33296)).degrees(), 0.0);
}

}  // namespace
}  // namespace lynearm::wort
