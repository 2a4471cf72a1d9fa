// Refractive index of aqueous ethanol at 20 °C from the CRC Handbook of Chemistry and Physics,
// 102nd edition, "Concentrative Properties of Aqueous Solutions", against the smooth curve of
// refractive_index().
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>
#include <vector>

#include "places.hpp"
#include "spirit/refractometer.hpp"

namespace lynearm::spirit {
namespace {

using units::MassFraction;
using units::RefractiveIndex;

struct Row {
  double percent_mass, index;
};

std::vector<Row> printed_rows() {
  std::ifstream file(LYNEARM_SOURCE_DIR "/tests/published/data/crc_refractive_index.csv");
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line[0] < '0' || line[0] > '9') continue;
    std::stringstream cells(line);
    Row row{};
    char comma = ',';
    cells >> row.percent_mass >> comma >> row.index;
    rows.push_back(row);
  }
  return rows;
}

double index_at(double percent_mass) {
  return refractive_index(MassFraction::percent(percent_mass)).ratio();
}

TEST(CrcRefractiveIndex, every_row_is_met_within_half_its_last_digit) {
  const std::vector<Row> rows = printed_rows();
  ASSERT_EQ(rows.size(), 62u);
  double worst = 0.0, sum = 0.0;
  for (const Row& row : rows) {
    const double off = index_at(row.percent_mass) - row.index;
    EXPECT_NEAR(off, 0.0, 0.00005) << row.percent_mass << " % by mass";
    worst = std::max(worst, std::abs(off));
    sum += off * off;
  }
  std::cout << "CRC ethanol, 20 °C: worst " << worst << ", RMS "
            << std::sqrt(sum / static_cast<double>(rows.size())) << '\n';
}

TEST(CrcRefractiveIndex, each_row_read_back_gives_its_strength_within_the_printed_digit) {
  // One half of the last digit is what the table says of itself: the strength asked for must
  // lie among those whose index is so near to the row's.
  for (const Row& row : printed_rows()) {
    const StrengthSpan span = strengths_within(MassFraction::percent(row.percent_mass),
                                               RefractiveIndex::ratio(2.0 * 0.00005));
    const RefractedStrength read = strengths(RefractiveIndex::ratio(row.index));
    const auto inside = [&](MassFraction p) { return p >= span.low && p <= span.high; };
    EXPECT_TRUE(inside(read.weak) || (read.strong && inside(*read.strong)) ||
                (read.flat && span.low <= *read.strong && span.high >= read.weak))
        << row.percent_mass << " % by mass";
  }
}

TEST(CrcRefractiveIndex, the_maximum_lies_where_the_table_has_it) {
  // The table's greatest figure stands at 80 %, its neighbours one digit lower: the top lies
  // within a step of the table. Two papers put it lower, at about 78.5 % (Jiménez Riobóo et al.
  // 2009) and at about 75 % (Leach and Lythgoe 1905): below 0.00005 from the top of ours lie
  // 77.1 to 82.7 %, so the first agrees, the second does not. It was read with an immersion
  // refractometer on spirit gauged by the tables of its day.
  const RefractiveMaximum top = refractive_maximum();
  EXPECT_NEAR(top.strength.percent(), 80.0, 2.0);
  EXPECT_NEAR(top.index.ratio(), 1.3658, 0.00005);
  const RefractedStrength flat = strengths(top.index);
  ASSERT_TRUE(flat.flat);
  EXPECT_LT(flat.weak.percent(), 78.5);
  EXPECT_GT(flat.weak.percent(), 75.0);
}

TEST(CrcRefractiveIndex, the_table_falls_faster_at_its_strong_end_than_refractions_that_add) {
  // Doubt about the source, kept in sight. Lorentz-Lorenz refractions of water and ethanol
  // added by mass leave at 98 % an index 0.0006 below the printed one, and none at 100 %; the
  // difference rises smoothly from -0.0015 at 42 % through zero at 88 %, then stops at once.
  // Either the rows above 90 % are high or pure ethanol's is low; pure ethanol's 1.3614 agrees
  // with the handbook's other table (1.3611) and with 1.36143 (from memory).
  const auto added = [](double percent) {
    const double p = percent / 100.0;
    const double mL_per_g =
        p * specific_refraction_mL_per_g(MassFraction::fraction(1.0)) +
        (1.0 - p) * specific_refraction_mL_per_g(MassFraction::fraction(0.0));
    return index_of_refraction(
               mL_per_g *
               density(MassFraction::fraction(p), reference_20C).grams_per_millilitre())
        .ratio();
  };
  EXPECT_NEAR(1.3630 - added(98.0), 0.0006, 0.00005);
  EXPECT_NEAR(1.3590 - added(42.0), -0.0015, 0.0001);
  EXPECT_NEAR(1.3653 - added(88.0), 0.0, 0.0001);
}

TEST(CrcRefractiveIndex, pure_ethanol_agrees_with_the_other_table_of_the_handbook) {
  // CRC Handbook, index of organic liquids: 1.3611 for ethanol at 20 °C. The two tables of one
  // handbook part by 0.0003, a trace of water or another purity; half a last digit on top.
  EXPECT_NEAR(index_at(100.0), 1.3611, 0.0003 + 0.00005);
}

}  // namespace
}  // namespace lynearm::spirit
