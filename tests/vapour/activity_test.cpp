#include "vapour/activity.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <utility>

#include "base/error.hpp"

namespace lynearm::vapour {
namespace {

using units::MoleFraction;
using units::Temperature;

struct Row {
  double x, t_K, ethanol, water;
};

TEST(ActivityCoefficients, AreThoseOfAnIndependentImplementation) {
  // Computed elsewhere from the parameters of common simulator databanks, printed to 1e-4: a
  // check of the code, not of the model.
  constexpr NrtlParameters databank{-0.801, 246.2, 3.458, -586.1, 0.3};
  constexpr Row rows[] = {
      {1e-6, 298.15, 4.5575, 1.0000}, {1e-6, 373.15, 5.6973, 1.0000},
      {0.1, 360.0, 3.2855, 1.0266},   {0.3, 354.6, 1.7257, 1.1959},
      {0.5, 352.7, 1.2437, 1.4791},   {0.895, 351.3, 1.0063, 2.3058},
  };
  for (const Row& row : rows) {
    const ActivityCoefficients gamma = activity_coefficients(
        MoleFraction::fraction(row.x), Temperature::kelvins(row.t_K), databank);
    EXPECT_NEAR(gamma.ethanol, row.ethanol, 0.6e-4) << row.x;
    EXPECT_NEAR(gamma.water, row.water, 0.6e-4) << row.x;
  }
}

TEST(ActivityCoefficients, OfAPureLiquidAreOne) {
  const auto t = Temperature::celsius(80.0);
  EXPECT_EQ(activity_coefficients(MoleFraction::fraction(1.0), t).ethanol, 1.0);
  EXPECT_EQ(activity_coefficients(MoleFraction::fraction(0.0), t).water, 1.0);
}

// Parameters as a regression may try them, a composition and a temperature.
struct Place {
  NrtlParameters parameters;
  double x, t_C;
};

Place any_place() {
  const auto between = [](double low, double high) {
    return low + (high - low) * *rc::gen::inRange(0, 1000001) * 1e-6;
  };
  // tau between about -1.5 and 4.5 near 350 K.
  const NrtlParameters parameters{between(-3.0, 3.0), between(-500.0, 500.0),
                                  between(-3.0, 3.0), between(-500.0, 500.0),
                                  between(0.1, 0.5)};
  return {*rc::gen::arbitrary<bool>() ? house_nrtl : parameters, between(0.001, 0.999),
          between(1.0, 114.0)};
}

RC_GTEST_PROP(ActivityCoefficients, ObeyGibbsAndDuhemWithAnyParameters, ()) {
  const Place at = any_place();
  const ActivitySlopes slope = activity_slopes(MoleFraction::fraction(at.x),
                                               Temperature::celsius(at.t_C), at.parameters);
  const double size = std::abs(at.x * slope.ethanol) + 1.0;
  RC_ASSERT(std::abs(at.x * slope.ethanol + (1.0 - at.x) * slope.water) < 1e-12 * size);
}

RC_GTEST_PROP(ActivitySlopes, AreThoseOfTheCoefficients, ()) {
  const Place at = any_place();
  const auto ln = [&](double x, double t_C) {
    const ActivityCoefficients gamma = activity_coefficients(
        MoleFraction::fraction(x), Temperature::celsius(t_C), at.parameters);
    return std::pair(std::log(gamma.ethanol), std::log(gamma.water));
  };
  const ActivitySlopes slope = activity_slopes(MoleFraction::fraction(at.x),
                                               Temperature::celsius(at.t_C), at.parameters);
  // Central differences: their own error is the third derivative's.
  constexpr double dx = 1e-5, dT = 1e-3;
  const auto [e_high, w_high] = ln(at.x + dx, at.t_C);
  const auto [e_low, w_low] = ln(at.x - dx, at.t_C);
  RC_ASSERT(std::abs((e_high - e_low) / (2.0 * dx) - slope.ethanol) <
            1e-5 * (1.0 + std::abs(slope.ethanol)));
  RC_ASSERT(std::abs((w_high - w_low) / (2.0 * dx) - slope.water) <
            1e-5 * (1.0 + std::abs(slope.water)));
  const auto [e_warm, w_warm] = ln(at.x, at.t_C + dT);
  const auto [e_cool, w_cool] = ln(at.x, at.t_C - dT);
  RC_ASSERT(std::abs((e_warm - e_cool) / (2.0 * dT) - slope.ethanol_per_K) < 1e-8);
  RC_ASSERT(std::abs((w_warm - w_cool) / (2.0 * dT) - slope.water_per_K) < 1e-8);
}

TEST(ExcessEnthalpy, IsThatOfAnIndependentEvaluation) {
  // Computed elsewhere from Larkin's coefficients, printed to 0.1 J/mol.
  struct Mixing {
    double x, t_K, J_per_mol;
  };
  constexpr Mixing rows[] = {
      {0.1, 298.15, -767.8}, {0.3, 298.15, -665.6}, {0.5, 298.15, -463.0},
      {0.9, 298.15, -163.6}, {0.2, 323.15, -407.2}, {0.7, 323.15, -55.1},
      {0.1, 348.15, -156.8}, {0.5, 348.15, 193.2},  {0.3, 383.15, 457.1},
      {0.9, 383.15, 193.9},
  };
  for (const Mixing& row : rows) {
    EXPECT_NEAR(excess_enthalpy(MoleFraction::fraction(row.x), Temperature::kelvins(row.t_K))
                    .joules_per_mole(),
                row.J_per_mol, 0.06)
        << row.x << " at " << row.t_K;
  }
}

TEST(ExcessEnthalpy, VanishesInThePureLiquids) {
  const auto t = Temperature::celsius(50.0);
  EXPECT_EQ(excess_enthalpy(MoleFraction::fraction(0.0), t).joules_per_mole(), 0.0);
  EXPECT_EQ(excess_enthalpy(MoleFraction::fraction(1.0), t).joules_per_mole(), 0.0);
}

TEST(ExcessHeatCapacity, IsTheSlopeOfTheExcessEnthalpy) {
  const auto x = MoleFraction::fraction(0.2);
  const double slope = (excess_enthalpy(x, Temperature::celsius(60.01)) -
                        excess_enthalpy(x, Temperature::celsius(59.99)))
                           .joules_per_mole() /
                       0.02;
  EXPECT_NEAR(excess_heat_capacity(x, Temperature::celsius(60.0)).joules_per_mole_kelvin(),
              slope, 1e-6);
}

TEST(ExcessEnthalpy, DoesNotExtrapolate) {
  const auto x = MoleFraction::fraction(0.2);
  EXPECT_THROW((void)excess_enthalpy(x, Temperature::celsius(24.0)), base::InputError);
  EXPECT_THROW((void)excess_enthalpy(x, Temperature::celsius(111.0)), base::InputError);
  EXPECT_THROW((void)excess_enthalpy(MoleFraction::fraction(1.01), Temperature::celsius(50.0)),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::vapour
