#include "spirit/scale_in_name.hpp"

#include <gtest/gtest.h>

namespace lynearm::spirit {
namespace {

TEST(ScaleInName, isKnownInEitherCase) {
  ASSERT_NE(scale_in_name("percent_vol"), nullptr);
  EXPECT_EQ(scale_in_name("percent_vol")->scale, Scale::percent_vol);
  EXPECT_EQ(scale_in_name("Percent_Vol_15c")->scale, Scale::percent_vol_15C);
  EXPECT_EQ(scale_in_name("proof"), scale_in_name("PROOF"));
  EXPECT_EQ(scale_in_name("percent"), nullptr);
  EXPECT_EQ(scale_in_name(""), nullptr);
}

TEST(ScaleInName, gramsPerMillilitreAreAThousandOfTheScalesOwn) {
  EXPECT_EQ(scale_in_name("density_g_mL")->figure_per_number, 1000.0);
  EXPECT_EQ(scale_in_name("density_kg_m3")->figure_per_number, 1.0);
}

TEST(ScaleInName, saysWhetherItIsAStrength) {
  EXPECT_TRUE(is_of_strength(Scale::us_proof));
  EXPECT_TRUE(is_of_strength(Scale::percent_mass));
  EXPECT_FALSE(is_of_strength(Scale::density));
  EXPECT_FALSE(is_of_strength(Scale::specific_gravity_60F));
}

}  // namespace
}  // namespace lynearm::spirit
