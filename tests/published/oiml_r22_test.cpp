// OIML R 22 (1973), International alcoholometric tables: density and strength at the points of
// its tables that are at hand. Rows stand as printed; conversions happen here.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "spirit/density.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::MassFraction;
using units::Temperature;
using units::VolumeStrength;

struct DensityRow {
  const char* source;
  double mass_fraction, t_C, density_kgm3, tolerance_kgm3;
};

// Tolerance: half the last printed digit, and a thousandth of the last digit for binary
// rounding.
// clang-format off
constexpr DensityRow density_rows[] = {
    {"OIML R 22, coefficient A1, water, 20 °C",        0.0, 20.0, 998.201, 0.000501},
    {"OIML R 22, Table I, p = 100 %, 5 °C",            1.0,  5.0, 801.99, 0.00501},
    {"OIML R 22, Table I, p = 100 %, 10 °C",           1.0, 10.0, 797.76, 0.00501},
    {"OIML R 22, Table I, p = 100 %, 15 °C",           1.0, 15.0, 793.51, 0.00501},
    {"OIML R 22, Table I, p = 100 %, 20 °C",           1.0, 20.0, 789.24, 0.00501},
    {"OIML R 22, Table I, p = 100 %, 25 °C",           1.0, 25.0, 784.95, 0.00501},
    {"OIML R 22, Table I, p = 100 %, 30 °C",           1.0, 30.0, 780.65, 0.00501},
    {"OIML R 22, Table I, p = 100 %, 35 °C",           1.0, 35.0, 776.31, 0.00501},
    {"OIML R 22, Table I, p = 100 %, 40 °C",           1.0, 40.0, 771.93, 0.00501},
};

struct StrengthRow {
  const char* source;
  double percent_vol, density_20C_kgm3, percent_mass;
};

// European Pharmacopoeia 5.5 (alcoholimetric tables, computed there from OIML R 22), from
// memory. Printed to 0.01 kg/m³ and 0.01 % mass.
constexpr StrengthRow strength_rows[] = {
    {"Ph. Eur. 5.5, 10 %vol (from memory)", 10, 984.71,  8.01},
    {"Ph. Eur. 5.5, 20 %vol (from memory)", 20, 973.56, 16.21},
    {"Ph. Eur. 5.5, 30 %vol (from memory)", 30, 962.21, 24.61},
    {"Ph. Eur. 5.5, 40 %vol (from memory)", 40, 948.05, 33.30},
    {"Ph. Eur. 5.5, 50 %vol (from memory)", 50, 930.14, 42.43},
    {"Ph. Eur. 5.5, 60 %vol (from memory)", 60, 909.11, 52.09},
    {"Ph. Eur. 5.5, 70 %vol (from memory)", 70, 885.56, 62.39},
    {"Ph. Eur. 5.5, 80 %vol (from memory)", 80, 859.27, 73.48},
    {"Ph. Eur. 5.5, 90 %vol (from memory)", 90, 829.18, 85.66},
    {"Ph. Eur. 5.5, 96 %vol (from memory)", 96, 807.42, 93.84},
};
// clang-format on

TEST(OimlR22, gives_every_printed_density_to_its_last_digit) {
  double worst = 0.0;
  for (const DensityRow& row : density_rows) {
    const double ours =
        density(MassFraction::fraction(row.mass_fraction), Temperature::celsius(row.t_C))
            .kilograms_per_cubic_metre();
    EXPECT_NEAR(ours, row.density_kgm3, row.tolerance_kgm3) << row.source;
    worst = std::max(worst, std::abs(ours - row.density_kgm3));
  }
  RecordProperty("worst_kg_m3", std::to_string(worst));
}

TEST(OimlR22, gives_every_printed_strength_to_its_last_digit) {
  for (const StrengthRow& row : strength_rows) {
    const MassFraction p = mass_fraction(VolumeStrength::percent(row.percent_vol));
    EXPECT_NEAR(p.percent(), row.percent_mass, 0.00501) << row.source;
    EXPECT_NEAR(density(p, reference_20C).kilograms_per_cubic_metre(), row.density_20C_kgm3,
                0.00501)
        << row.source;
  }
}

// Osborne, McKelvy and Bearce, NBS Bulletin 9 (1913), as printed in C. Simmonds, Alcohol
// (1919). The older table gives pure ethanol another density, so it lies up to 1.2e-4 g/mL
// above the standard; the tolerance is that difference and half the last printed digit.
TEST(NbsBulletin9, agrees_within_the_known_difference_of_its_pure_ethanol) {
  // clang-format off
  constexpr DensityRow rows[] = {
      {"45 % mass, 10 °C", 0.45, 10, 932.26, 0.15}, {"45 % mass, 40 °C", 0.45, 40, 908.84, 0.15},
      {"50 % mass, 20 °C", 0.50, 20, 913.84, 0.15}, {"50 % mass, 40 °C", 0.50, 40, 897.50, 0.15},
      {"55 % mass, 15 °C", 0.55, 15, 906.59, 0.15}, {"60 % mass, 30 °C", 0.60, 30, 882.78, 0.15},
      {"65 % mass, 25 °C", 0.65, 25, 875.27, 0.15}, {"70 % mass, 35 °C", 0.70, 35, 854.70, 0.15},
      {"75 % mass, 10 °C", 0.75, 10, 864.08, 0.15}, {"80 % mass, 20 °C", 0.80, 20, 843.44, 0.15},
      {"85 % mass, 40 °C", 0.85, 40, 813.22, 0.15}, {"80 % mass, 40 °C", 0.80, 40, 825.78, 0.15},
  };
  // clang-format on
  for (const DensityRow& row : rows) {
    EXPECT_NEAR(
        density(MassFraction::fraction(row.mass_fraction), Temperature::celsius(row.t_C))
            .kilograms_per_cubic_metre(),
        row.density_kgm3, row.tolerance_kgm3)
        << row.source;
  }
}

}  // namespace
}  // namespace lynearm::spirit
