#include "spirit/strength.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"

namespace lynearm::spirit {
namespace {

using units::MassFraction;
using units::MoleFraction;
using units::VolumeStrength;

TEST(Strength, converts_to_and_fro_over_the_whole_scale) {
  for (int i = 0; i <= 10000; ++i) {
    const MassFraction p = MassFraction::fraction(i / 10000.0);
    EXPECT_NEAR(mass_fraction(volume_strength(p)).fraction(), p.fraction(), 1e-11);
    EXPECT_NEAR(mass_fraction(proof(p)).fraction(), p.fraction(), 1e-11);
    EXPECT_NEAR(mass_fraction(mole_fraction(p)).fraction(), p.fraction(), 1e-14);
  }
}

TEST(Strength, of_pure_ethanol_is_100_percent_and_200_proof) {
  const MassFraction pure = MassFraction::fraction(1.0);
  EXPECT_DOUBLE_EQ(volume_strength(pure).percent(), 100.0);
  EXPECT_DOUBLE_EQ(proof(pure).degrees(), 200.0);
}

// 27 CFR 30.11: proof spirit holds one half its volume of alcohol of a specific gravity of
// 0.7939 at 60 °F. USP 29 (from NBS Bulletin 9): 50 % by volume at 60 °F is 42.49 % mass.
TEST(Strength, of_100_proof_is_42_49_percent_mass) {
  EXPECT_NEAR(mass_fraction(Proof::degrees(100.0)).percent(), 42.49, 0.01);
}

TEST(Strength, of_the_azeotrope_is_95_6_percent_mass) {
  // Evans 1916: x = 0.8946 is 95.6 % by mass.
  EXPECT_NEAR(mass_fraction(MoleFraction::fraction(0.8946)).percent(), 95.6, 0.05);
}

TEST(Strength, outside_the_scale_is_refused) {
  EXPECT_THROW(static_cast<void>(mass_fraction(VolumeStrength::percent(100.1))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(mass_fraction(VolumeStrength::percent(-0.1))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(mass_fraction(Proof::degrees(201.0))), base::InputError);
  EXPECT_THROW(static_cast<void>(volume_strength(MassFraction::fraction(1.1))),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::spirit
