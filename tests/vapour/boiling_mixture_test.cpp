#include "vapour/boiling_mixture.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "vapour/enthalpy.hpp"
#include "vapour/equilibrium.hpp"

namespace lynearm::vapour {
namespace {

using units::MoleFraction;
using units::Pressure;

TEST(BoilingMixture, HasTheFiguresOfEquilibriumAndEnthalpy) {
  const auto p = Pressure::kilopascals(90.0);
  const auto x = MoleFraction::fraction(0.2);
  const BoilingMixture found = boiling_mixture(x, p);
  const BubblePoint bubble = bubble_point(x, p);
  EXPECT_EQ(found.pressure, p);
  EXPECT_EQ(found.liquid, x);
  EXPECT_EQ(found.temperature, bubble.temperature);
  EXPECT_EQ(found.vapour, bubble.vapour);
  EXPECT_EQ(found.liquid_enthalpy, liquid_enthalpy(x, bubble.temperature));
  EXPECT_EQ(found.vapour_enthalpy, vapour_enthalpy(bubble.vapour, bubble.temperature));
  EXPECT_EQ(found.heat_of_vaporisation, heat_of_vaporisation(x, p));
  const double y = bubble.vapour.fraction();
  EXPECT_NEAR(found.relative_volatility, (y / (1.0 - y)) / (0.2 / 0.8), 1e-11);
}

RC_GTEST_PROP(CondensingMixture, IsTheSamePairFromTheOtherSide, ()) {
  const auto p = Pressure::kilopascals(50.0 + *rc::gen::inRange(0, 601) * 0.1);
  const auto x = MoleFraction::fraction(*rc::gen::inRange(0, 10001) * 1e-4);
  const BoilingMixture up = boiling_mixture(x, p);
  const BoilingMixture down = condensing_mixture(up.vapour, p);
  RC_ASSERT(std::abs((up.liquid - down.liquid).fraction()) < 1e-10);
  RC_ASSERT(std::abs((up.temperature - down.temperature).kelvins()) < 1e-8);
  RC_ASSERT(std::abs(up.relative_volatility - down.relative_volatility) < 1e-7);
}

TEST(RelativeVolatility, HasALimitInThePureLiquidsAndIsOneAtTheAzeotrope) {
  const auto p = Pressure::atmospheres(1.0);
  const double dilute = boiling_mixture(MoleFraction::fraction(0.0), p).relative_volatility;
  EXPECT_NEAR(boiling_mixture(MoleFraction::fraction(1e-7), p).relative_volatility, dilute,
              1e-5 * dilute);
  EXPECT_GT(dilute, 10.0);
  EXPECT_LT(boiling_mixture(MoleFraction::fraction(1.0), p).relative_volatility, 1.0);
  EXPECT_NEAR(boiling_mixture(azeotrope(p).ethanol, p).relative_volatility, 1.0, 1e-9);
}

TEST(HeatOfVaporisation, OfThePureLiquidsIsWithinOnePercentOfPublished) {
  // CRC Handbook at the normal boiling points: 40.65 kJ/mol (2256 kJ/kg) and 38.56 (837).
  // Perry's equation is known to stand 0.4 and 1.0 % above (pure.hpp).
  const auto p = Pressure::atmospheres(1.0);
  const auto water = MoleFraction::fraction(0.0);
  const auto ethanol = MoleFraction::fraction(1.0);
  EXPECT_NEAR(kilojoules_per_kilogram(heat_of_vaporisation(water, p), water) / 2256.0, 1.0,
              0.005);
  EXPECT_NEAR(kilojoules_per_kilogram(heat_of_vaporisation(ethanol, p), ethanol) / 837.0, 1.0,
              0.0105);
}

TEST(HeatOfVaporisation, FallsWithStrengthByMassAndStaysBetweenThePureLiquids) {
  for (const double kPa : {50.0, 101.325, 110.0}) {
    const auto p = Pressure::kilopascals(kPa);
    double last = 1e9;
    for (int i = 0; i <= 50; ++i) {
      const auto x = MoleFraction::fraction(i / 50.0);
      const double kJ_per_kg = kilojoules_per_kilogram(heat_of_vaporisation(x, p), x);
      EXPECT_LT(kJ_per_kg, last) << i << " at " << kPa;
      last = kJ_per_kg;
    }
  }
}

TEST(HeatOfVaporisation, DiffersFromTheUnmixedByTheHeatOfMixing) {
  for (const double fraction : {0.05, 0.3, 0.7}) {
    const auto x = MoleFraction::fraction(fraction);
    for (const double kPa : {50.0, 110.0}) {
      const auto p = Pressure::kilopascals(kPa);
      const auto t = bubble_point(x, p).temperature;
      EXPECT_NEAR((latent_heat(x, t) - heat_of_vaporisation(x, p)).joules_per_mole(),
                  excess_enthalpy(x, t).joules_per_mole(), 1e-8);
      EXPECT_LT(std::abs(excess_enthalpy(x, t).joules_per_mole()),
                0.01 * heat_of_vaporisation(x, p).joules_per_mole());
    }
  }
}

TEST(BoilingMixture, RefusesWhatLiesOutsideItsRange) {
  const auto x = MoleFraction::fraction(0.2);
  EXPECT_THROW((void)boiling_mixture(MoleFraction::fraction(1.1), Pressure::atmospheres(1.0)),
               base::InputError);
  EXPECT_THROW((void)condensing_mixture(x, Pressure::kilopascals(130.0)), base::InputError);
  EXPECT_THROW((void)heat_of_vaporisation(x, Pressure::kilopascals(10.0)), base::InputError);
}

}  // namespace
}  // namespace lynearm::vapour
