// 27 CFR 30.66 (186.66 in the edition opened), Table 6: gallons of alcohol and of water in 100
// gallons of spirit at 60 °F. Alcohol and water add up to more than 100: the contraction. The
// text's worked reduction is held against ours.
#include <gtest/gtest.h>

#include "spirit/reduction.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

Lot hundred_gallons(double proof) {
  const units::MassFraction p = mass_fraction(Proof::degrees(proof));
  return lot(units::Volume::us_gallons(100.0), volume_strength(p), reference_60F);
}

double gallons(const Lot& lot) { return volume(lot, reference_60F).us_gallons(); }

struct Row {
  const char* source;
  double proof, alcohol, water, alcohol_tolerance, water_tolerance;
};

// Alcohol: half of the last digit as printed. Water: the same, and what an older ethanol
// density does to it: the rule has specific gravity 0.7939 for pure ethanol where OIML R 22
// has 0.79382 (0.01 %).
// clang-format off
constexpr Row rows[] = {
    {"27 CFR 30.66, Table 6, 191 proof", 191, 95.5,  5.59, 0.0501, 0.00501},
    {"27 CFR 30.66, Table 6, 188 proof", 188, 94.0,  7.36, 0.0501, 0.00501},
    {"27 CFR 30.66, Table 6, 100 proof", 100, 50.0, 53.73, 0.0501, 0.00501},
};
// clang-format on

TEST(Cfr27Reduction, parts_of_alcohol_and_water_are_those_of_table_6) {
  for (const Row& row : rows) {
    const Lot lot = hundred_gallons(row.proof);
    EXPECT_NEAR(gallons({lot.ethanol, {}}), row.alcohol, row.alcohol_tolerance) << row.source;
    EXPECT_NEAR(gallons({{}, lot.water}), row.water, row.water_tolerance) << row.source;
  }
}

// 100 gallons from 191 to 188 proof. The text divides 95.5 by 94.0 and rounds to 1.01 before it
// multiplies: 1.84 gallons. Unrounded, its own table gives 1.89, and so do the densities; the
// printed row parts by the rounding, 0.0060 * 7.36 = 0.04 gallon, and is held to that.
TEST(Cfr27Reduction, of_100_gallons_from_191_to_188_proof) {
  const Lot spirit = hundred_gallons(191.0);
  const Reduction r = reduce(spirit, volume_strength(mass_fraction(Proof::degrees(188.0))));
  const double water = gallons({{}, r.water});
  EXPECT_NEAR(water, 1.84, 0.005 + 0.006 * 7.36) << "27 CFR 30.66, worked example as printed";
  EXPECT_NEAR(water, 95.5 / 94.0 * 7.36 - 5.59, 0.00501 * (1.0 + 95.5 / 94.0))
      << "27 CFR 30.66, the same unrounded";
  RecordProperty("water_gallons", std::to_string(water));
}

}  // namespace
}  // namespace lynearm::spirit
