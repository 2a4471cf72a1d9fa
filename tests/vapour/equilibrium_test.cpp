#include "vapour/equilibrium.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/strength.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

using units::MoleFraction;
using units::Pressure;
using units::VolumeStrength;

MoleFraction x_of(double percent_vol) {
  return spirit::mole_fraction(spirit::mass_fraction(VolumeStrength::percent(percent_vol)));
}

TEST(BubblePoint, OfAPureLiquidIsItsBoilingPointAndItsVapourTheSame) {
  for (const double kPa : {20.0, 70.0, 120.0}) {
    const auto p = Pressure::kilopascals(kPa);
    const BubblePoint water = bubble_point(MoleFraction::fraction(0.0), p);
    EXPECT_NEAR(water.temperature.kelvins(), boiling_point(Substance::water, p).kelvins(),
                1e-9);
    EXPECT_EQ(water.vapour.fraction(), 0.0);
    const BubblePoint ethanol = bubble_point(MoleFraction::fraction(1.0), p);
    EXPECT_NEAR(ethanol.temperature.kelvins(), boiling_point(Substance::ethanol, p).kelvins(),
                1e-9);
    EXPECT_EQ(ethanol.vapour.fraction(), 1.0);
  }
}

TEST(BubblePoint, IsThatOfAnotherComputationWithItsParametersWithinHalfAPercentVolume) {
  // Computed elsewhere with Antoine pressures and these NRTL parameters: pot %vol, boiling °C,
  // vapour %vol, printed to 0.1. An independent computation, not a publication. The vapour
  // pressures differ by up to 0.3 %, which is 0.1 K and up to 0.5 %vol.
  constexpr NrtlParameters databank{-0.8009, 246.18, 3.4578, -586.081, 0.3};
  struct Row {
    double pot, t_C, vapour;
  };
  constexpr Row rows[] = {
      {1, 99.0, 11.3},  {2, 98.1, 20.3},  {3, 97.3, 27.6},  {5, 95.7, 38.8},  {7, 94.4, 46.9},
      {8, 93.7, 50.1},  {10, 92.6, 55.3}, {12, 91.5, 59.4}, {15, 90.2, 64.2}, {18, 89.0, 67.7},
      {20, 88.3, 69.7}, {25, 86.8, 73.4}, {28, 86.1, 75.1}, {30, 85.6, 76.1}, {40, 83.8, 79.7},
      {50, 82.5, 82.2}, {60, 81.5, 84.1}, {70, 80.6, 86.0}, {80, 79.6, 88.4}, {90, 78.6, 92.3}};
  for (const Row& row : rows) {
    const BubblePoint boil = bubble_point(x_of(row.pot), Pressure::atmospheres(1.0), databank);
    EXPECT_NEAR(boil.temperature.celsius(), row.t_C, 0.15) << row.pot;
    EXPECT_NEAR(spirit::volume_strength(spirit::mass_fraction(boil.vapour)).percent(),
                row.vapour, 0.5)
        << row.pot;
  }
}

RC_GTEST_PROP(BubblePoint, PutBackIntoItsEquationsGivesThePressure, ()) {
  // The parts at the checked borders, put together again by hand.
  const double x = *rc::gen::inRange(0, 1000001) * 1e-6;
  const double kPa = 20.0 + *rc::gen::inRange(0, 100001) * 1e-3;
  const auto liquid = MoleFraction::fraction(x);
  const BubblePoint boil = bubble_point(liquid, Pressure::kilopascals(kPa));
  RC_ASSERT(boil.iterations <= 5);
  const ActivityCoefficients gamma = activity_coefficients(liquid, boil.temperature);
  const double ethanol =
      x * gamma.ethanol * vapour_pressure(Substance::ethanol, boil.temperature).kilopascals();
  const double water = (1.0 - x) * gamma.water *
                       vapour_pressure(Substance::water, boil.temperature).kilopascals();
  RC_ASSERT(std::abs((ethanol + water) / kPa - 1.0) < 1e-11);
  RC_ASSERT(std::abs(ethanol / kPa - boil.vapour.fraction()) < 1e-11);
}

RC_GTEST_PROP(DewPoint, UndoesTheBubblePoint, ()) {
  const double x = *rc::gen::inRange(0, 1000001) * 1e-6;
  const auto p = Pressure::kilopascals(20.0 + *rc::gen::inRange(0, 101));
  const BubblePoint boil = bubble_point(MoleFraction::fraction(x), p);
  RC_ASSERT(std::abs(boil.residual) < 1e-11);
  const DewPoint dew = dew_point(boil.vapour, p);
  // The vapour line is nowhere flatter than dy/dx = 0.2, so 1e-12 in y is 5e-12 in x.
  RC_ASSERT(std::abs(dew.liquid.fraction() - x) < 1e-10);
  RC_ASSERT(std::abs(dew.temperature.kelvins() - boil.temperature.kelvins()) < 1e-8);
}

TEST(Azeotrope, BoilsUnchangedAndLowestOfAll) {
  for (const double kPa : {20.0, 50.0, 101.325, 120.0}) {
    const auto p = Pressure::kilopascals(kPa);
    const Azeotrope found = azeotrope(p);
    EXPECT_LT(found.ethanol.fraction(), 0.95);
    EXPECT_NEAR(bubble_point(found.ethanol, p).vapour.fraction(), found.ethanol.fraction(),
                1e-10);
    for (const double away : {-0.03, 0.03}) {
      const auto beside = MoleFraction::fraction(found.ethanol.fraction() + away);
      EXPECT_GT(bubble_point(beside, p).temperature, found.temperature);
    }
  }
}

TEST(Azeotrope, MovesTowardsPureEthanolAsThePressureFalls) {
  EXPECT_GT(azeotrope(Pressure::kilopascals(30.0)).ethanol,
            azeotrope(Pressure::kilopascals(100.0)).ethanol);
}

TEST(BubblePoint, RefusesWhatLiesOutsideItsRange) {
  const auto p = Pressure::atmospheres(1.0);
  EXPECT_THROW((void)bubble_point(MoleFraction::fraction(-0.01), p), base::InputError);
  EXPECT_THROW((void)bubble_point(MoleFraction::fraction(1.01), p), base::InputError);
  EXPECT_THROW((void)bubble_point(MoleFraction::fraction(0.1), Pressure::kilopascals(10.0)),
               base::InputError);
  EXPECT_THROW((void)dew_point(MoleFraction::fraction(std::nan("")), p), base::InputError);
}

}  // namespace
}  // namespace lynearm::vapour
