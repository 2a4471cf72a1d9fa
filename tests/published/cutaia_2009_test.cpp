// Means over groups of commercial brews in Cutaia, Reid and Speers 2009, J. Inst. Brew.
// 115(4):318-327, Table III, against Balling's formula and against the two-solute density.
// Tolerances: the scatter that paper finds between Balling's formula and its data, per row.
#include <gtest/gtest.h>

#include "wort/attenuation.hpp"
#include "wort/gravity.hpp"
#include "wort/wash.hpp"

namespace lynearm::wort {
namespace {

using units::Mass;
using units::Plato;
using units::Share;

struct Row {
  const char* source;
  double alcohol_percent, real_P, apparent_P, original_P, tolerance_P;
};
constexpr double not_printed = -99.0;
// clang-format off
constexpr Row rows[] = {
    // Balling gives 14.31 here, high by 0.23: the mean hides a group that fermented with a
    // lower yield; the paper's own refit exists for this reason.
    {"Cutaia et al. 2009, Table III, mean of 92 brews", 4.72, 5.28, not_printed, 14.08, 0.25},
    {"Cutaia et al. 2009, Table III, mean of 71 brews", 6.56, 5.38, 2.45, 17.67, 0.10},
    {"Cutaia et al. 2009, Table III, mean of 221 brews", 3.82, 3.80, 2.01, 11.34, 0.12},
};
// clang-format on

TEST(Cutaia2009, original_extract_follows_from_alcohol_and_real_extract) {
  for (const Row& row : rows)
    EXPECT_NEAR(
        original_extract(Share::percent(row.alcohol_percent), Plato::degrees(row.real_P))
            .degrees(),
        row.original_P, row.tolerance_P)
        << row.source;
}

TEST(Cutaia2009, real_extract_follows_from_apparent_extract) {
  for (const Row& row : rows) {
    if (row.apparent_P == not_printed) continue;
    EXPECT_NEAR(
        real_extract(Plato::degrees(row.original_P), Plato::degrees(row.apparent_P)).degrees(),
        row.real_P, 0.05)  // two means printed to 0.01, their q differing from ours
        << row.source;
  }
}

TEST(Cutaia2009, the_density_of_water_ethanol_and_extract_shows_the_apparent_extract) {
  for (const Row& row : rows) {
    if (row.apparent_P == not_printed) continue;
    const Wash wash{Mass::kilograms(100.0 - row.alcohol_percent - row.real_P),
                    Mass::kilograms(row.alcohol_percent), Mass::kilograms(row.real_P)};
    EXPECT_NEAR(plato(specific_gravity(wash)).degrees(), row.apparent_P, 0.05) << row.source;
    RecordProperty(row.source, std::to_string(plato(specific_gravity(wash)).degrees()));
  }
}

}  // namespace
}  // namespace lynearm::wort
