#include "wort/wash.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "spirit/lot.hpp"

namespace lynearm::wort {
namespace {

using units::Mass;
using units::Temperature;

Mass kg(double v) { return Mass::kilograms(v); }

TEST(Wash, without_extract_it_is_a_spirit) {
  const Wash w{kg(92.0), kg(8.0), {}};
  EXPECT_DOUBLE_EQ(volume(w).litres(), spirit::volume(lot(w)).litres());
  EXPECT_NEAR(strength(w).percent(), spirit::strength(lot(w)).percent(), 1e-10);
}

TEST(Wash, without_ethanol_it_is_a_wort) {
  const Wash w{kg(85.0), {}, kg(15.0)};
  EXPECT_NEAR(volume(w).litres(), volume(Wort{kg(85.0), kg(15.0)}).litres(), 1e-10);
  EXPECT_NEAR(real_extract(w).degrees(), 15.0, 1e-12);
}

TEST(Wash, a_dry_wash_shows_a_gravity_below_water) {
  // Dry washes finish at SG 0.990 to 1.000: common practice, no source. 8 %vol with 0.5 to 2 %
  // of extract left lies inside.
  const double driest = specific_gravity(Wash{kg(93.0), kg(6.5), kg(0.5)}).ratio();
  const double less_dry = specific_gravity(Wash{kg(91.5), kg(6.5), kg(2.0)}).ratio();
  EXPECT_GT(driest, 0.988);
  EXPECT_LT(less_dry, 1.000);
  EXPECT_LT(driest, less_dry);
}

TEST(Wash, warm_wash_takes_more_room) {
  const Wash w{kg(92.0), kg(6.0), kg(2.0)};
  EXPECT_GT(volume(w, Temperature::celsius(30)).litres(), volume(w).litres());
}

TEST(Wash, an_empty_wash_answers_without_dividing_by_nothing) {
  EXPECT_EQ(strength(Wash{}).fraction(), 0.0);
  EXPECT_EQ(specific_gravity(Wash{}).ratio(), 1.0);
}

TEST(Wash, a_syrup_is_refused) {
  EXPECT_THROW((void)volume(Wash{kg(1.0), kg(1.0), kg(9.0)}), base::InputError);
}

}  // namespace
}  // namespace lynearm::wort
