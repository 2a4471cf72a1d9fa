#include "vapour/congener_curve.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iostream>

#include "base/error.hpp"
#include "vapour/equilibrium.hpp"

namespace lynearm::vapour {
namespace {

using units::MoleFraction;
using units::Pressure;

TEST(CongenerCurve, FollowsTheEquationsEverywhere) {
  // Bound: a hundredth of the narrowest spread.
  for (const double kPa : {20.0, 70.0, 101.325, 120.0}) {
    const auto p = Pressure::kilopascals(kPa);
    const CongenerCurve curve{BoilingCurve(p)};
    EXPECT_EQ(curve.pressure(), p);
    double worst = 0.0;
    for (int i = 0; i <= 2000; ++i) {
      // Half of them in the dilute fifth.
      const double x = i < 1000 ? 0.2 * i / 1000.0 : 0.2 + 0.8 * (i - 1000) / 1000.0;
      const auto liquid = MoleFraction::fraction(x);
      const auto k = volatilities(liquid, bubble_point(liquid, p).temperature, p);
      std::array<double, congener_count> found{};
      curve.at(liquid, found);
      for (std::size_t c = 0; c < congener_count; ++c) {
        worst = std::max(worst, std::abs(found[c] / k[c] - 1.0));
      }
    }
    std::cout << kPa << " kPa: worst " << worst << " of K\n";
    EXPECT_LT(worst, 1e-4);
  }
}

TEST(CongenerCurve, MeetsItselfAtItsNodes) {
  const CongenerCurve curve{BoilingCurve(Pressure::atmospheres(1.0))};
  for (int i = 1; i < 128; ++i) {
    const double s = i / 128.0;
    const double x = 0.3 * s / (1.3 - s);
    std::array<double, congener_count> below{}, above{};
    curve.at(MoleFraction::fraction(x - 1e-9), below);
    curve.at(MoleFraction::fraction(x + 1e-9), above);
    for (std::size_t c = 0; c < congener_count; ++c) {
      EXPECT_NEAR(below[c] / above[c], 1.0, 1e-6) << i << ' ' << congeners()[c].id;
    }
  }
}

TEST(CongenerCurve, RefusesWhatIsNoMoleFraction) {
  const CongenerCurve curve{BoilingCurve(Pressure::atmospheres(1.0))};
  std::array<double, congener_count> k{};
  EXPECT_THROW(curve.at(MoleFraction::fraction(1.0001), k), base::BrokenInvariant);
  EXPECT_THROW(curve.at(MoleFraction::fraction(-0.0001), k), base::BrokenInvariant);
  EXPECT_THROW(curve.at(MoleFraction::fraction(std::nan("")), k), base::BrokenInvariant);
}

}  // namespace
}  // namespace lynearm::vapour
