#include "vapour/enthalpy.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "vapour/activity.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

using units::MoleFraction;
using units::Temperature;

TEST(LiquidEnthalpy, OfAMixtureIsThatOfItsPartsAndTheHeatOfMixing) {
  const auto x = MoleFraction::fraction(0.25);
  const auto t = Temperature::celsius(60.0);
  const double parts = 0.25 * liquid_enthalpy(Substance::ethanol, t).joules_per_mole() +
                       0.75 * liquid_enthalpy(Substance::water, t).joules_per_mole();
  EXPECT_NEAR(liquid_enthalpy(x, t).joules_per_mole() - parts,
              excess_enthalpy(x, t).joules_per_mole(), 1e-9);
}

TEST(LiquidEnthalpy, PassesTheEdgeOfTheHeatOfMixingSmoothly) {
  const auto x = MoleFraction::fraction(0.25);
  const double below = (liquid_enthalpy(x, Temperature::kelvins(298.149)) -
                        liquid_enthalpy(x, Temperature::kelvins(298.148)))
                           .joules_per_mole();
  const double above = (liquid_enthalpy(x, Temperature::kelvins(298.152)) -
                        liquid_enthalpy(x, Temperature::kelvins(298.151)))
                           .joules_per_mole();
  EXPECT_NEAR(below, above, 1e-5);
}

TEST(LiquidHeatCapacity, IsTheSlopeOfTheEnthalpy) {
  const auto x = MoleFraction::fraction(0.1);
  for (const double t_C : {10.0, 40.0, 90.0}) {
    const double slope = (liquid_enthalpy(x, Temperature::celsius(t_C + 0.01)) -
                          liquid_enthalpy(x, Temperature::celsius(t_C - 0.01)))
                             .joules_per_mole() /
                         0.02;
    EXPECT_NEAR(liquid_heat_capacity(x, Temperature::celsius(t_C)).joules_per_mole_kelvin(),
                slope, 1e-5);
  }
}

TEST(VapourEnthalpy, LiesTheLatentHeatAboveTheUnmixedLiquids) {
  const auto y = MoleFraction::fraction(0.6);
  const auto t = Temperature::celsius(85.0);
  const double unmixed = (liquid_enthalpy(y, t) - excess_enthalpy(y, t)).joules_per_mole();
  EXPECT_NEAR(vapour_enthalpy(y, t).joules_per_mole() - unmixed,
              latent_heat(y, t).joules_per_mole(), 1e-9);
}

TEST(MolarMass, IsWeightedByMoles) {
  EXPECT_DOUBLE_EQ(molar_mass_g_per_mol(MoleFraction::fraction(0.0)), 18.01528);
  EXPECT_DOUBLE_EQ(molar_mass_g_per_mol(MoleFraction::fraction(1.0)), 46.06844);
}

TEST(LiquidEnthalpy, RefusesWhatLiesOutsideItsRange) {
  EXPECT_THROW((void)liquid_enthalpy(MoleFraction::fraction(0.1), Temperature::celsius(-1.0)),
               base::InputError);
  EXPECT_THROW((void)liquid_enthalpy(MoleFraction::fraction(0.1), Temperature::celsius(111.0)),
               base::InputError);
  EXPECT_THROW((void)vapour_enthalpy(MoleFraction::fraction(2.0), Temperature::celsius(80.0)),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::vapour
