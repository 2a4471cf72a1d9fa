// Groning's table of boiling spirit, as printed in Cooley's Cyclopaedia, 6th ed.: the vapour's
// temperature in °F, the strength of the distillate, and of the boiling liquid, both % by
// volume (of 60 °F; the difference from 20 °C is below 0.1 here). Measured on a still of the
// early 19th century; his air pressure is not known.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "spirit/strength.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::vapour {
namespace {

struct Row {
  double t_F, distillate_percent, liquid_percent;
  double tolerance_strength, tolerance_K;
};

// Tolerances by what is known of the rows:
//   50 to 80 % liquid: his still rectified a little, so they run 2 to 3 % strong; 3.5.
//   85 to 92 %: near the azeotrope the lines close up; 1.5.
//   10 to 18 %: 2.5.
//   7 and 3 %, doubtful: vapour of 50 and 36 % over them is 3 and 8.5 % stronger than every
//   modern measurement allows (Kamihama 2012: x 0.018, which is 5.6 %, gives 42 %). They stay,
//   held to how far they are known to be out.
// Temperatures: under 65 % they agree to 0.6 K except the doubtful rows; printed to 0.1 to 1
// °F, pressure unknown by some 20 hPa: 1.0 and 1.2. From 65 % up they are 1.0 to 1.8 K low, and
// 170 °F (76.7 °C) is below the least boiling point there is at one atmosphere (78.15 °C): his
// thermometer hung in vapour that was already condensing, or the air was thin; held to 2.
// clang-format off
constexpr Row rows[] = {
    {170.0, 93.0, 92.0, 1.5, 2.0},
    {171.8, 92.0, 90.0, 1.5, 1.5},
    {172.0, 91.0, 85.0, 1.5, 1.5},
    {172.8, 90.5, 80.0, 3.5, 1.5},
    {174.0, 90.0, 75.0, 3.5, 1.5},
    {174.6, 89.0, 70.0, 3.5, 1.5},
    {176.0, 87.0, 65.0, 3.5, 1.5},
    {178.3, 85.0, 50.0, 3.5, 1.5},
    {192.0, 68.0, 18.0, 2.5, 1.0},
    {194.0, 66.0, 15.0, 2.5, 1.0},
    {198.6, 55.0, 10.0, 2.5, 1.0},
    {201.0, 50.0,  7.0, 3.5, 1.0},   // doubtful
    {205.4, 36.0,  3.0, 9.0, 1.2},   // doubtful
};
// clang-format on

TEST(Groning, BoilingSpiritIsReproducedExceptHisDoubtfulRows) {
  const BoilingCurve curve(units::Pressure::atmospheres(1.0));
  for (const Row& row : rows) {
    const units::MoleFraction x = spirit::mole_fraction(
        spirit::mass_fraction(units::VolumeStrength::percent(row.liquid_percent)));
    const Boiling boil = curve.at(x);
    const double strength =
        spirit::volume_strength(spirit::mass_fraction(boil.vapour)).percent();
    const double t_K = units::Temperature::fahrenheit(row.t_F).kelvins();
    std::cout << row.liquid_percent << " %: vapour " << strength << " against "
              << row.distillate_percent << ", " << boil.temperature.celsius() << " against "
              << t_K - 273.15 << " °C\n";
    EXPECT_NEAR(strength, row.distillate_percent, row.tolerance_strength) << row.liquid_percent;
    EXPECT_NEAR(boil.temperature.kelvins(), t_K, row.tolerance_K) << row.liquid_percent;
  }
}

}  // namespace
}  // namespace lynearm::vapour
