// Boiling points and vapours of ethanol and water against five published sets of measurements
// (data/vle_ethanol_water.csv, where each is cited). Every row counts; RMS and worst are
// printed.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <iostream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "places.hpp"
#include "spirit/strength.hpp"
#include "vapour/equilibrium.hpp"

namespace lynearm::vapour {
namespace {

using units::MoleFraction;
using units::Pressure;

struct Row {
  double P_kPa, T_K, x, y;
};

std::vector<Row> rows_of(const std::string& set) {
  std::ifstream file(LYNEARM_SOURCE_DIR "/tests/published/data/vle_ethanol_water.csv");
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.rfind(set + ",", 0) != 0) continue;
    std::stringstream cells(line.substr(set.size() + 1));
    Row row{};
    char comma = ',';
    cells >> row.P_kPa >> comma >> row.T_K >> comma >> row.x >> comma >> row.y;
    rows.push_back(row);
  }
  return rows;
}

struct Bounds {
  const char* set;
  std::size_t rows;
  double rms_T_K, worst_T_K, rms_y, worst_y;
};

class PublishedSet : public testing::TestWithParam<Bounds> {};

TEST_P(PublishedSet, IsReproducedWithinItsBounds) {
  const Bounds bounds = GetParam();
  const std::vector<Row> rows = rows_of(bounds.set);
  ASSERT_EQ(rows.size(), bounds.rows);
  double sum_T = 0.0, sum_y = 0.0, worst_T = 0.0, worst_y = 0.0, worst_T_x = 0.0,
         worst_y_x = 0.0;
  for (const Row& row : rows) {
    const BubblePoint boil =
        bubble_point(MoleFraction::fraction(row.x), Pressure::kilopascals(row.P_kPa));
    const double dT = boil.temperature.kelvins() - row.T_K;
    const double dy = boil.vapour.fraction() - row.y;
    sum_T += dT * dT;
    sum_y += dy * dy;
    if (std::abs(dT) > std::abs(worst_T)) worst_T = dT, worst_T_x = row.x;
    if (std::abs(dy) > std::abs(worst_y)) worst_y = dy, worst_y_x = row.x;
  }
  const auto count = static_cast<double>(rows.size());
  const double rms_T = std::sqrt(sum_T / count);
  const double rms_y = std::sqrt(sum_y / count);
  std::cout << bounds.set << ", " << rows.size() << " rows: T RMS " << rms_T << " K, worst "
            << worst_T << " at x " << worst_T_x << "; y RMS " << rms_y << ", worst " << worst_y
            << " at x " << worst_y_x << '\n';
  EXPECT_LE(rms_T, bounds.rms_T_K);
  EXPECT_LE(std::abs(worst_T), bounds.worst_T_K);
  EXPECT_LE(rms_y, bounds.rms_y);
  EXPECT_LE(std::abs(worst_y), bounds.worst_y);
}

// Where the bounds come from:
//   Kamihama 2012, Kirschbaum 740 mmHg: 0.5 K and 0.015 are what we promise of a still's pot;
//   RMS half of that or better.
//   Voutsas 2011 and Kirschbaum 250 mmHg, a third of an atmosphere: the two sets disagree with
//   each other by 0.027 in y at x 0.248 and by 0.3 K at x 0.063 (at one pressure), and the
//   model runs between them. Kirschbaum's y falls by 0.013 from x 0.504 to 0.514 where it
//   should rise by 0.005: his scatter alone is 0.018. So 0.025 in y for both, 0.4 and 0.6 K.
//   Perry: its temperatures at x 0.02 to 0.07 are high; at x 0.0721 it has 362.15 K where
//   Kamihama's row at 0.079, moved along the curve, gives 361.0. Hence 0.9 K there.
// clang-format off
INSTANTIATE_TEST_SUITE_P(EthanolWater, PublishedSet, testing::Values(
    Bounds{"Kamihama2012",           19, 0.15, 0.5, 0.0075, 0.015},
    Bounds{"Voutsas2011",            13, 0.25, 0.4, 0.010,  0.025},
    Bounds{"Kirschbaum1939_740mmHg", 18, 0.25, 0.5, 0.0075, 0.015},
    Bounds{"Kirschbaum1939_250mmHg", 28, 0.35, 0.6, 0.015,  0.025},
    Bounds{"Perry_Carey_Lewis",      15, 0.35, 0.9, 0.0075, 0.015}),
    [](const auto& set) { return std::string(set.param.set); });
// clang-format on

TEST(Azeotrope, AtOneAtmosphereLiesWherePublished) {
  const Azeotrope found = azeotrope(Pressure::atmospheres(1.0));
  // Evans 1916: 95.6 % by mass, 78.17 °C; Perry: x 0.8943, 78.15 °C; Kamihama 2012
  // (interpolated between rows): x 0.895, 351.26 K. The three differ by 0.001 and 0.06 K among
  // themselves.
  EXPECT_NEAR(found.ethanol.fraction(), 0.8946, 0.001);
  EXPECT_NEAR(found.temperature.celsius(), 78.15, 0.05);
  EXPECT_NEAR(spirit::mass_fraction(found.ethanol).percent(), 95.6, 0.05);
}

TEST(Azeotrope, AtOneBarAndAtAThirdOfOneLiesWherePublished) {
  // Susial Badajoz et al., J. Chem. Eng. Data 66 (2021) 928: x 0.899 and 351.39 K at 100 kPa.
  // Its temperature lies above the normal azeotrope's (351.3 K at the higher 101.3 kPa), which
  // no equilibrium can do: the row is off by 0.4 K, and is held to that.
  const Azeotrope bar = azeotrope(Pressure::kilopascals(100.0));
  EXPECT_NEAR(bar.ethanol.fraction(), 0.899, 0.004);
  EXPECT_NEAR(bar.temperature.kelvins(), 351.39, 0.5);
  // Voutsas 2011, the row with x = y: 0.931, 325.43 K at 32.86 kPa. Liquid and vapour lie so
  // close there that an error of 0.001 in y moves the crossing by 0.01.
  const Azeotrope third = azeotrope(Pressure::kilopascals(32.86));
  EXPECT_NEAR(third.ethanol.fraction(), 0.931, 0.012);
  // Over all of that set's ethanol-rich rows the model lies 0.16 K low, as pure ethanol's
  // vapour pressure does (Perry's equation); within the set's RMS of 0.19 K.
  EXPECT_NEAR(third.temperature.kelvins(), 325.43, 0.2);
}

}  // namespace
}  // namespace lynearm::vapour
