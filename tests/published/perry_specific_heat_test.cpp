// Specific heats of aqueous ethanol in Perry's Handbook (7th ed., p. 2-184) against the
// derivative of our enthalpy. A derivative of a fitted heat of mixing is a hard test of it.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>

#include "places.hpp"
#include "vapour/enthalpy.hpp"

namespace lynearm::vapour {
namespace {

// What is known of the disagreement:
//   4.16 mol %: ours is 3.5 to 6.2 % high. Two causes: the slope of Larkin's heat of mixing is
//   too steep below x 0.05 (activity.hpp), and the table itself is low: 1.02 where later
//   calorimetry has about 1.04 cal/(g K) (from memory). 37 to 61 mol %: up to 7.6 % high at 3
//   °C, where the excess heat capacity is carried down from 25 °C unchanged, and 1.5 to 3.6 %
//   at 23 and 41 °C. Pure ethanol: within 0.7 %, of DIPPR 100 alone.
// Bound: 4 % inside the range of the correlation (23 °C, taken as its edge of 25, and 41 °C)
// from 11.5 mol % up, 8 % elsewhere: for heating up a charge that is at most the 3 % said in
// heat_up.hpp because the excess heat capacity fades towards the boil.
TEST(PerrySpecificHeat, AgreesWithinFourPercentInsideTheHeatOfMixingsRange) {
  std::ifstream file(LYNEARM_SOURCE_DIR "/tests/published/data/perry_specific_heat.csv");
  int rows = 0;
  double sum = 0.0;
  double worst = 0.0;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line[0] < '0' || line[0] > '9') continue;
    std::stringstream cells(line);
    double percent = 0.0, t_C = 0.0, printed = 0.0;
    char comma = ',';
    cells >> percent >> comma >> t_C >> comma >> printed;
    const auto x = units::MoleFraction::percent(percent);
    const double ours =
        liquid_heat_capacity(x, units::Temperature::celsius(t_C)).joules_per_mole_kelvin() /
        molar_mass_g_per_mol(x) / 4.184;
    const double off = ours / printed - 1.0;
    std::cout << percent << " mol %, " << t_C << " °C: " << ours << " against " << printed
              << " (" << 100.0 * off << " %)\n";
    const bool inside = percent > 5.0 && t_C > 20.0;
    EXPECT_LE(std::abs(off), inside ? 0.04 : 0.08) << line;
    ++rows;
    sum += off * off;
    worst = std::max(worst, std::abs(off));
  }
  EXPECT_EQ(rows, 15);
  std::cout << "RMS " << 100.0 * std::sqrt(sum / rows) << " %, worst " << 100.0 * worst
            << " %\n";
}

}  // namespace
}  // namespace lynearm::vapour
