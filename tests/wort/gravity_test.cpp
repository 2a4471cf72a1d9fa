#include "wort/gravity.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/error.hpp"

namespace lynearm::wort {
namespace {

using units::Mass;
using units::Plato;
using units::SpecificGravity;
using units::Temperature;
using units::Volume;

TEST(Gravity, water_has_no_extract_and_gravity_one) {
  EXPECT_NEAR(plato(SpecificGravity::ratio(1.0)).degrees(), 0.0, 1e-12);
  EXPECT_NEAR(specific_gravity(Plato::degrees(0.0)).ratio(), 1.0, 1e-15);
}

TEST(Gravity, a_gravity_below_water_reads_as_a_negative_apparent_extract) {
  const double p = plato(SpecificGravity::ratio(0.990)).degrees();
  EXPECT_LT(p, -2.4);
  EXPECT_GT(p, -2.7);
  EXPECT_NEAR(specific_gravity(Plato::degrees(p)).ratio(), 0.990, 1e-13);
}

TEST(Gravity, the_curve_has_no_step_and_no_kink_where_its_pieces_meet) {
  for (const double sg : {1.0, 1.008}) {
    const double h = 1e-6;
    const double below = plato(SpecificGravity::ratio(sg - h)).degrees();
    const double at = plato(SpecificGravity::ratio(sg)).degrees();
    const double above = plato(SpecificGravity::ratio(sg + h)).degrees();
    EXPECT_NEAR(at - below, above - at, 1e-8) << sg;
  }
}

RC_GTEST_PROP(GravityProperty, extract_to_gravity_and_back_is_the_identity, ()) {
  const double p = *rc::gen::inRange(-7000, 40000) / 1000.0;
  const double back = plato(specific_gravity(Plato::degrees(p))).degrees();
  RC_ASSERT(std::abs(back - p) < 1e-11);
}

RC_GTEST_PROP(GravityProperty, more_extract_weighs_more, ()) {
  const double p = *rc::gen::inRange(-7000, 39900) / 1000.0;
  RC_ASSERT(specific_gravity(Plato::degrees(p + 0.01)) > specific_gravity(Plato::degrees(p)));
}

TEST(Gravity, what_the_tables_do_not_cover_is_refused_with_the_field) {
  EXPECT_THROW((void)plato(SpecificGravity::ratio(1.19)), base::InputError);
  EXPECT_THROW((void)plato(SpecificGravity::ratio(0.96)), base::InputError);
  EXPECT_THROW((void)plato(SpecificGravity::ratio(std::nan(""))), base::InputError);
  EXPECT_THROW((void)specific_gravity(Plato::degrees(40.01)), base::InputError);
  EXPECT_THROW((void)specific_gravity(Plato::degrees(std::nan(""))), base::InputError);
  EXPECT_THROW((void)water_density(Temperature::celsius(101.0)), base::InputError);
  EXPECT_THROW((void)wort(Volume::litres(-1.0), Plato::degrees(10.0)), base::InputError);
  EXPECT_THROW((void)wort(Mass::kilograms(1.0), Plato::degrees(-1.0)), base::InputError);
}

TEST(Gravity, water_density_follows_the_usual_table) {
  // Steam tables, from memory; the last digit is worth 0.05.
  struct Row {
    double t_C, kgm3;
  };
  for (const auto& row :
       {Row{4, 999.97}, Row{25, 997.05}, Row{60, 983.2}, Row{80, 971.8}, Row{100, 958.4}})
    EXPECT_NEAR(water_density(Temperature::celsius(row.t_C)).kilograms_per_cubic_metre(),
                row.kgm3, 0.05)
        << row.t_C;
}

TEST(Gravity, wort_shrinks_four_percent_from_boiling) {
  // Common practice, no source; printed to half a per cent.
  const Wort w = wort(Volume::litres(100.0), Plato::degrees(12.0), Temperature::celsius(100.0));
  EXPECT_NEAR(volume(w).litres(), 96.0, 0.5);
}

TEST(Gravity, recalled_table_values_agree) {
  // Table of specific gravity against extract, from memory: tolerance one in the last digit
  // for 12 °P, two for 20 °P.
  EXPECT_NEAR(specific_gravity(Plato::degrees(12.0)).ratio(), 1.0484, 1e-4);
  EXPECT_NEAR(specific_gravity(Plato::degrees(20.0)).ratio(), 1.0830, 2e-4);
}

TEST(Wort, worts_add_by_mass_and_fill_the_volume_they_were_made_for) {
  const Wort a = wort(Volume::litres(20.0), Plato::degrees(18.0));
  EXPECT_NEAR(volume(a).litres(), 20.0, 1e-11);
  EXPECT_NEAR(plato(a).degrees(), 18.0, 1e-12);
  const Wort hot = wort(Volume::litres(20.0), Plato::degrees(18.0), Temperature::celsius(80.0));
  EXPECT_LT(hot.mass(), a.mass());
  EXPECT_NEAR(volume(hot, Temperature::celsius(80.0)).litres(), 20.0, 1e-11);
  const Wort both = a + hot;
  EXPECT_DOUBLE_EQ(both.mass().kilograms(), a.mass().kilograms() + hot.mass().kilograms());
}

TEST(Wort, an_empty_wort_has_no_volume) {
  EXPECT_EQ(volume(Wort{}).litres(), 0.0);
  EXPECT_EQ(plato(Wort{}).degrees(), 0.0);
}

TEST(Wort, the_water_to_reach_an_extract_reaches_it) {
  Wort w = wort(Mass::kilograms(10.0), Plato::degrees(20.0));
  w.water += water_to_reach(w, Plato::degrees(15.0));
  EXPECT_NEAR(plato(w).degrees(), 15.0, 1e-12);
}

TEST(Wort, a_kilogram_of_sugar_in_ten_litres_gives_the_gravity_expected) {
  // Sugar gives about 384 points times litres a kilogram: common practice, no source (also
  // the exact meaning of sucrose in the table: 1 kg made up to 10 L reads 1.0384 or so).
  const Wort w{Mass::kilograms(9.38), Mass::kilograms(1.0)};
  EXPECT_NEAR(volume(w).litres() * (specific_gravity(w).ratio() - 1.0) * 1000.0, 384.0, 4.0);
}

}  // namespace
}  // namespace lynearm::wort
