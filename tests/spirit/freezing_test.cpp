#include "spirit/freezing.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "spirit/refusal.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::MassFraction;
using units::Temperature;
using units::VolumeStrength;

double freezing_C(double percent_mass) {
  return freezing_point(MassFraction::percent(percent_mass)).celsius();
}

struct Row {
  double percent, depression_K;
};

TEST(Freezing, every_row_of_the_handbook_is_met) {
  // CRC Handbook of Chemistry and Physics, 102nd ed., % by mass; printed to 0.01 K.
  for (const Row& row :
       {Row{1, 0.40}, Row{5, 2.09}, Row{10, 4.47}, Row{20, 10.92}, Row{30, 20.47},
        Row{40, 29.26}, Row{50, 37.67}, Row{60, 44.93}, Row{68, 49.52}})
    EXPECT_NEAR(freezing_C(row.percent), -row.depression_K, 1e-9) << row.percent << " %";
  EXPECT_EQ(freezing_C(0.0), 0.0);
}

TEST(Freezing, a_trade_table_to_whole_degrees_agrees) {
  // By volume, from memory; half a degree of its digits and as much of its rounding of
  // strength.
  for (const Row& row : {Row{10, 4}, Row{20, 9}, Row{30, 15}, Row{40, 23}, Row{50, 32}})
    EXPECT_NEAR(freezing_point(mass_fraction(VolumeStrength::percent(row.percent))).celsius(),
                -row.depression_K, 1.0)
        << row.percent << " %vol";
}

TEST(Freezing, a_dilute_spirit_follows_the_constant_of_water) {
  // 1.86 K kg/mol (from memory) at 1 % by mass: 0.408 K for an ideal solution; the table prints
  // 0.40.
  const double molality = 10.0 / 46.06844 / 0.99;
  EXPECT_NEAR(freezing_C(1.0), -1.86 * molality, 0.01);
}

TEST(Freezing, more_alcohol_freezes_colder_and_the_inverse_returns_it) {
  for (double p = 0.5; p <= 68.0; p += 0.5) {
    EXPECT_LT(freezing_C(p), freezing_C(p - 0.5)) << p;
    EXPECT_NEAR(weakest_liquid(Temperature::celsius(freezing_C(p))).percent(), p, 1e-8) << p;
  }
  EXPECT_EQ(weakest_liquid(Temperature::celsius(0.0)).percent(), 0.0);
  EXPECT_EQ(weakest_liquid(Temperature::celsius(35.0)).percent(), 0.0);
}

TEST(Freezing, ice_is_told_below_the_curve_and_not_above_it) {
  const MassFraction forty = mass_fraction(VolumeStrength::percent(40.0));
  EXPECT_FALSE(may_be_frozen(forty, Temperature::celsius(-20.0)));
  EXPECT_TRUE(may_be_frozen(forty, Temperature::celsius(-24.0)));
  EXPECT_TRUE(may_be_frozen(MassFraction::percent(10.0), Temperature::celsius(-5.0)));
  EXPECT_FALSE(may_be_frozen(MassFraction::percent(0.0), Temperature::celsius(0.0)));
  EXPECT_FALSE(may_be_frozen(MassFraction::percent(95.0), Temperature::celsius(-49.0)));
}

TEST(Freezing, what_lies_outside_the_table_is_refused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(fault_of([] { return freezing_C(68.5); }).accepted, "0 to 68 % by mass");
  EXPECT_EQ(fault_of([] { return freezing_C(-0.1); }).field, "strength");
  EXPECT_EQ(fault_of([&] { return freezing_C(nan); }).field, "strength");
  const auto frozen = [](double percent, double t_C) {
    return may_be_frozen(MassFraction::percent(percent), Temperature::celsius(t_C));
  };
  EXPECT_EQ(fault_of([&] { return frozen(101.0, 0.0); }).field, "strength");
  EXPECT_EQ(fault_of([&] { return frozen(40.0, -60.0); }).field, "temperature");
  EXPECT_EQ(fault_of([&] { return frozen(40.0, nan); }).field, "temperature");
}

}  // namespace
}  // namespace lynearm::spirit
