// USP 29, alcoholometric table (data/usp_29.csv): % by volume at 60 °F, % by mass and specific
// gravity in air, 60/60 °F and 25/25 °C. It was computed from the measurements of NBS Bulletin
// 9 (1913), ours from OIML R 22 and the definitions. The table's other rows are not at hand.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iostream>
#include <map>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "places.hpp"
#include "spirit/buoyancy.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Density;
using units::MassFraction;
using units::Temperature;

constexpr Temperature at_25C = Temperature::celsius(25.0);

std::vector<std::vector<std::string>> rows_of(const std::string& name) {
  std::ifstream file(LYNEARM_SOURCE_DIR "/tests/published/data/" + name);
  std::vector<std::vector<std::string>> rows;
  bool head = true;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    if (std::exchange(head, false)) continue;
    std::vector<std::string> cells;
    std::stringstream text(line);
    for (std::string cell; std::getline(text, cell, ',');) cells.push_back(cell);
    rows.push_back(cells);
  }
  return rows;
}

struct Row {
  std::string quantity, given;
  double given_percent, printed;
  [[nodiscard]] std::string name() const {
    return quantity + " of " + given + " " + std::to_string(given_percent);
  }
};

std::vector<Row> usp_rows() {
  std::vector<Row> rows;
  for (const auto& cells : rows_of("usp_29.csv")) {
    rows.push_back({cells.at(0), cells.at(1), std::stod(cells.at(2)), std::stod(cells.at(3))});
  }
  return rows;
}

double ours(const Row& row, const Air& air = {}) {
  const MassFraction p = row.given == "mass_percent"
                             ? MassFraction::percent(row.given_percent)
                             : mass_fraction(VolumeStrength60F::percent(row.given_percent));
  if (row.quantity == "mass_percent") return p.percent();
  if (row.quantity == "percent_vol_60F") return volume_strength_60F(p).percent();
  const Temperature t = row.quantity == "gravity_25C" ? at_25C : reference_60F;
  return gravity_in_air(p, t, air).ratio();
}

bool is_gravity(const Row& row) { return row.quantity.rfind("gravity", 0) == 0; }

// Three gravities part by more than half a digit: +5.8e-5 (5 %vol, 25/25), +5.6e-5 (15 %vol,
// 60/60) and +8.0e-5 (15 % mass, 60/60). NBS's measurements scatter by 3e-5 about R 22 once
// each is set against its own water (the last test below); half a digit and that makes 8e-5.
constexpr double scatter_of_1913 = 3e-5;
bool parts_by_scatter(const Row& row) {
  return (row.quantity == "gravity_25C" && row.given == "percent_vol_60F" &&
          row.given_percent == 5) ||
         (row.quantity == "gravity_60F" && row.given_percent == 15);
}

TEST(Usp29, every_row_is_met_to_its_last_digit_or_within_the_scatter_of_its_measurements) {
  struct Sum {
    double worst = 0.0, squares = 0.0;
    int rows = 0;
  };
  std::map<std::string, Sum> sums;
  int past_half = 0;
  for (const Row& row : usp_rows()) {
    // Printed to 0.01 % and to 0.0001; a thousandth of that for binary rounding.
    const double half_digit = is_gravity(row) ? 0.5001e-4 : 0.5001e-2;
    const double off = ours(row) - row.printed;
    EXPECT_NEAR(off, 0.0, half_digit + (parts_by_scatter(row) ? scatter_of_1913 : 0.0))
        << row.name();
    if (std::abs(off) > half_digit) ++past_half;
    Sum& sum = sums[row.quantity];
    if (std::abs(off) > std::abs(sum.worst)) sum.worst = off;
    sum.squares += off * off;
    ++sum.rows;
  }
  EXPECT_EQ(past_half, 3);
  EXPECT_EQ(sums["mass_percent"].rows, 7);
  EXPECT_EQ(sums["percent_vol_60F"].rows, 7);
  EXPECT_EQ(sums["gravity_25C"].rows, 7);
  EXPECT_EQ(sums["gravity_60F"].rows, 14);
  for (const auto& [quantity, sum] : sums) {
    std::cout << "USP 29, " << quantity << ", " << sum.rows << " rows: worst " << sum.worst
              << ", RMS " << std::sqrt(sum.squares / sum.rows) << '\n';
  }
}

TEST(Usp29, the_gravities_are_those_in_air) {
  // In vacuum every gravity is nearer to 1; the table stands closer to the ones in air.
  const auto rms = [](const Air& air) {
    double squares = 0.0;
    int rows = 0;
    for (const Row& row : usp_rows()) {
      if (!is_gravity(row)) continue;
      const double off = ours(row, air) - row.printed;
      squares += off * off;
      ++rows;
    }
    return std::sqrt(squares / rows);
  };
  const double in_air = rms({});
  const double in_vacuum = rms({Density{}});
  std::cout << "USP 29, gravities: RMS in air " << in_air << ", in vacuum " << in_vacuum
            << '\n';
  EXPECT_LT(in_air, 3.5e-5);
  EXPECT_GT(in_vacuum, 5e-5);
}

// Perry's densities at 20 °C, 0 to 12 % mass (data/perry_density_20C.csv), come from the same
// measurements (attribution from memory). They stand 0.002 to 0.051 kg/m³ over R 22, water
// itself 0.029; as a gravity, -2.7e-5 to +2.2e-5 about it, with half a digit of 0.5e-5 on top.
TEST(Usp29, the_older_densities_scatter_about_ours_by_3e_5) {
  double least = 1.0, most = -1.0;
  double water_over_kgm3 = 0.0;
  const double water = density({}, reference_20C).kilograms_per_cubic_metre();
  for (const auto& cells : rows_of("perry_density_20C.csv")) {
    const MassFraction p = MassFraction::percent(std::stod(cells.at(0)));
    const double over_kgm3 =
        1e3 * std::stod(cells.at(1)) - density(p, reference_20C).kilograms_per_cubic_metre();
    if (p == MassFraction{}) water_over_kgm3 = over_kgm3;
    least = std::min(least, (over_kgm3 - water_over_kgm3) / water);
    most = std::max(most, (over_kgm3 - water_over_kgm3) / water);
  }
  EXPECT_NEAR(water_over_kgm3, 0.029, 0.001);
  EXPECT_GT(least, -scatter_of_1913);
  EXPECT_LT(most, scatter_of_1913);
  std::cout << "densities of 1913 about R 22, each against its own water: " << least << " to "
            << most << '\n';
}

}  // namespace
}  // namespace lynearm::spirit
