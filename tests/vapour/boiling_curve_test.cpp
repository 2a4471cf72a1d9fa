#include "vapour/boiling_curve.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <iostream>

#include "base/error.hpp"
#include "vapour/enthalpy.hpp"
#include "vapour/equilibrium.hpp"

namespace lynearm::vapour {
namespace {

using units::MoleFraction;
using units::Pressure;
using units::Share;

TEST(BoilingCurve, FollowsTheEquationsEverywhere) {
  // Bounds: a thousandth of what the model itself is good for (0.1 K, 0.005, 100 J/mol).
  for (const double kPa : {20.0, 50.0, 101.325, 120.0}) {
    const BoilingCurve curve(Pressure::kilopascals(kPa));
    double worst_T = 0.0, worst_y = 0.0, worst_liquid = 0.0, worst_vapour = 0.0;
    for (int i = 0; i <= 5000; ++i) {
      // Half of them in the dilute fifth.
      const double x = i < 2500 ? 0.2 * i / 2500.0 : 0.2 + 0.8 * (i - 2500) / 2500.0;
      const auto liquid = MoleFraction::fraction(x);
      const BubblePoint boil = bubble_point(liquid, curve.pressure());
      const Boiling found = curve.at(liquid);
      worst_T = std::max(worst_T, std::abs((boil.temperature - found.temperature).kelvins()));
      worst_y = std::max(worst_y, std::abs((boil.vapour - found.vapour).fraction()));
      worst_liquid =
          std::max(worst_liquid,
                   std::abs((liquid_enthalpy(liquid, boil.temperature) - found.liquid_enthalpy)
                                .joules_per_mole()));
      worst_vapour = std::max(
          worst_vapour,
          std::abs((vapour_enthalpy(boil.vapour, boil.temperature) - found.vapour_enthalpy)
                       .joules_per_mole()));
    }
    std::cout << kPa << " kPa: worst T " << worst_T << " K, vapour " << worst_y
              << ", enthalpies " << worst_liquid << " and " << worst_vapour << " J/mol\n";
    EXPECT_LT(worst_T, 1e-4);
    EXPECT_LT(worst_y, 5e-6);
    EXPECT_LT(worst_liquid, 0.1);
    EXPECT_LT(worst_vapour, 0.1);
  }
}

TEST(BoilingCurve, GivesOneColumnAsItGivesAll) {
  const BoilingCurve curve(Pressure::atmospheres(1.0));
  for (const double x : {0.0, 0.013, 0.4, 0.97, 1.0}) {
    const auto liquid = MoleFraction::fraction(x);
    const Boiling all = curve.at(liquid);
    EXPECT_EQ(curve.temperature(liquid), all.temperature);
    EXPECT_EQ(curve.vapour(liquid), all.vapour);
    EXPECT_EQ(curve.liquid_enthalpy(liquid), all.liquid_enthalpy);
    EXPECT_EQ(curve.vapour_enthalpy(liquid), all.vapour_enthalpy);
  }
}

TEST(BoilingCurve, HasTheSlopesItSays) {
  const BoilingCurve curve(Pressure::atmospheres(1.0));
  for (const double x : {0.01, 0.1, 0.5, 0.95}) {
    const auto above = MoleFraction::fraction(x + 1e-6);
    const auto below = MoleFraction::fraction(x - 1e-6);
    EXPECT_NEAR(curve.vapour_slope(MoleFraction::fraction(x)),
                (curve.vapour(above) - curve.vapour(below)).fraction() / 2e-6, 1e-6);
    EXPECT_NEAR(
        curve.liquid_enthalpy_slope(MoleFraction::fraction(x)).joules_per_mole(),
        (curve.liquid_enthalpy(above) - curve.liquid_enthalpy(below)).joules_per_mole() / 2e-6,
        0.5);
  }
}

TEST(BoilingCurve, FindsTheDewPointOfTheEquations) {
  const BoilingCurve curve(Pressure::kilopascals(90.0));
  for (const double y : {0.0, 0.001, 0.3, 0.7, 0.99, 1.0}) {
    const auto vapour = MoleFraction::fraction(y);
    const DewPoint dew = dew_point(vapour, curve.pressure());
    EXPECT_NEAR(curve.dew_temperature(vapour).kelvins(), dew.temperature.kelvins(), 1e-5) << y;
    EXPECT_NEAR(curve.liquid_under(vapour).fraction(), dew.liquid.fraction(), 1e-6) << y;
  }
}

RC_GTEST_PROP(FirstDrop, BalancesWhatRises, ()) {
  static const BoilingCurve curve(Pressure::atmospheres(1.0));
  const double y = *rc::gen::inRange(0, 100001) * 1e-5;
  const double share = *rc::gen::inRange(0, 1001) * 1e-3;
  const double near = *rc::gen::inRange(0, 101) * 1e-2;
  const MoleFraction drop = curve.first_drop(MoleFraction::fraction(y), Share::fraction(share),
                                             MoleFraction::fraction(near));
  const double back = (1.0 - share) * curve.vapour(drop).fraction() + share * drop.fraction();
  RC_ASSERT(std::abs(back - y) < 1e-13);
}

TEST(BoilingCurve, RefusesAPressureOutsideItsRange) {
  EXPECT_THROW((void)BoilingCurve(Pressure::kilopascals(19.0)), base::InputError);
  const BoilingCurve curve(Pressure::atmospheres(1.0));
  EXPECT_THROW((void)curve.at(MoleFraction::fraction(1.0001)), base::BrokenInvariant);
  EXPECT_THROW((void)curve.at(MoleFraction::fraction(std::nan(""))), base::BrokenInvariant);
}

}  // namespace
}  // namespace lynearm::vapour
