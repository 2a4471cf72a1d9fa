// Boiling points and vapours of ethanol and water against seven published sets and four
// azeotropes (data/vle_ethanol_water.csv, where each is cited). Each set is judged by a fit
// that has not seen it. Every row counts; RMS and worst are printed.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iostream>
#include <string>
#include <vector>

#include "places.hpp"
#include "regress_activity/regression.hpp"
#include "spirit/strength.hpp"
#include "vapour/equilibrium.hpp"

namespace lynearm::vapour {
namespace {

using regression::Differences;
using regression::MeasuredSet;
using regression::Misfit;
using units::MoleFraction;
using units::Pressure;

const std::vector<regression::Row>& rows() {
  static const std::vector<regression::Row> all = [] {
    std::ifstream file(LYNEARM_SOURCE_DIR "/tests/published/data/vle_ethanol_water.csv");
    return regression::read_rows(file);
  }();
  return all;
}

void tell(const char* what, const Differences& d, const char* unit) {
  std::cout << "  " << what << ": mean " << d.mean << ", mean absolute " << d.mean_absolute
            << ", RMS " << d.rms << unit << ", worst " << d.worst << " at x " << d.worst_at
            << '\n';
}

TEST(PublishedSets, AreAllThere) {
  struct Count {
    const char* set;
    int rows;
  };
  constexpr Count counts[] = {
      {"Kamihama2012", 19}, {"Perry_Carey_Lewis", 15},      {"Kirschbaum1939_740mmHg", 18},
      {"Voutsas2011", 13},  {"Kirschbaum1939_250mmHg", 28}, {"Pemberton_Mash1978", 22},
      {"Yang1979", 9}};
  ASSERT_EQ(std::size(counts), regression::sets().size());
  for (const Count& count : counts) {
    EXPECT_EQ(regression::misfit(rows(), count.set, house_nrtl).vapour.count, count.rows)
        << count.set;
  }
}

class PublishedSet : public testing::TestWithParam<MeasuredSet> {};

// Sets that miss the rule below, and by how much: RMS left out of the fit. They lie at 25 and
// 30 °C, 4 to 10 kPa, far below what is promised. It is the model that is at fault: NRTL does
// not take the shape of gamma there. Pemberton and Mash, the better set, shows it: 0.43 K at x
// 0.171,
// - 0.25 K at 0.027. Yang's y stand besides 0.03 above everybody.
struct Miss {
  const char* set;
  double temperature_K, vapour;
};
constexpr Miss misses[] = {{"Pemberton_Mash1978", 0.187, 0.0069}, {"Yang1979", 0.240, 0.0317}};

// The bound is not ours to choose: it is the RMS by which the set differs from the others that
// were measured near its pressure (regression.hpp says how they are compared). A set that
// misses it is held to how far it is known to be out, and has to miss it.
TEST_P(PublishedSet, LeftOutOfTheFitLiesWithinTheScatterOfTheSetsOrIsKnownToMissIt) {
  const MeasuredSet set = GetParam();
  const NrtlParameters without = regression::fit(rows(), set.name).parameters;
  const Misfit found = regression::misfit(rows(), set.name, without);
  const Misfit scatter = regression::mutual_scatter(rows(), set.name);
  std::cout << set.name << ", " << found.vapour.count << " rows, model less measurement\n";
  tell("T, left out", found.temperature_K, " K");
  tell("T, against its neighbours", scatter.temperature_K, " K");
  tell("y, left out", found.vapour, "");
  tell("y, against its neighbours", scatter.vapour, "");
  const auto* const miss =
      std::find_if(std::begin(misses), std::end(misses),
                   [&](const Miss& known) { return std::string(known.set) == set.name; });
  if (miss == std::end(misses)) {
    EXPECT_LE(found.temperature_K.rms, scatter.temperature_K.rms);
    EXPECT_LE(found.vapour.rms, scatter.vapour.rms);
    return;
  }
  EXPECT_GT(found.temperature_K.rms, scatter.temperature_K.rms);
  // Regression values, to their last digit.
  EXPECT_NEAR(found.temperature_K.rms, miss->temperature_K, 0.0006);
  EXPECT_NEAR(found.vapour.rms, miss->vapour, 0.00006);
}

INSTANTIATE_TEST_SUITE_P(EthanolWater, PublishedSet,
                         testing::ValuesIn(regression::sets().begin(),
                                           regression::sets().end()),
                         [](const auto& set) { return std::string(set.param.name); });

TEST(Kamihama2012, LeftOutOfTheFitIsForetoldTo15HundredthsOfAKelvin) {
  // The newest set and the smoothest, so it is held to figures of its own.
  const NrtlParameters without = regression::fit(rows(), "Kamihama2012").parameters;
  const Misfit found = regression::misfit(rows(), "Kamihama2012", without);
  EXPECT_LE(found.vapour.mean_absolute, 0.006);
  EXPECT_LE(found.temperature_K.mean_absolute, 0.15);
}

TEST(PublishedSets, HaveTwoRowsFromWhichTheModelStandsApart) {
  // Farther than two and a half times what sets of their pressure differ. Neither row is
  // doubtful: at 25 and 30 °C the two sets agree in T with each other better than with the
  // model (see the misses above), and both rows lie where its shape is wrong, Pemberton and
  // Mash at x 0.171 and Yang at 0.042. At the boil there is none; the farthest is Perry at x
  // 0.0721, 362.15 K, where Kamihama's row at 0.079, moved along the curve, gives 361.0:
  // Perry's temperatures from x 0.02 to 0.1 are high.
  std::vector<std::string> apart;
  for (const MeasuredSet& set : regression::sets()) {
    for (const regression::Row& row : rows()) {
      if (row.set != set.name) continue;
      const kernel::Boil boil = kernel::boil(house_nrtl, row.liquid, row.pressure_kPa * 1e3);
      if (std::abs(boil.t_K - row.temperature_K) > 2.5 * set.temperature_K ||
          std::abs(boil.vapour - row.vapour) > 2.5 * set.vapour) {
        apart.push_back(row.set + " at " + std::to_string(row.liquid));
      }
    }
  }
  const std::vector<std::string> known{"Pemberton_Mash1978 at 0.171110",
                                       "Yang1979 at 0.041640"};
  EXPECT_EQ(apart, known);
}

// The azeotropes of the file, by whom they are from.
const regression::Row& azeotrope_of(const std::string& whom) {
  for (const regression::Row& row : rows()) {
    if (row.set == "azeotrope_" + whom) return row;
  }
  throw std::out_of_range(whom);
}

TEST(Azeotrope, AtOneAtmosphereLiesWherePublished) {
  const Azeotrope found = azeotrope(Pressure::atmospheres(1.0));
  std::cout << "azeotrope: x " << found.ethanol.fraction() << ", "
            << found.temperature.celsius() << " °C\n";
  EXPECT_NEAR(found.ethanol.fraction(), 0.8945, 0.003);
  EXPECT_NEAR(found.temperature.celsius(), 78.15, 0.05);
  // Evans 1916, to the printed digit of the strength.
  EXPECT_NEAR(spirit::mass_fraction(found.ethanol).percent(), 95.6, 0.05);
  EXPECT_NEAR(found.temperature.kelvins(), azeotrope_of("Evans1916").temperature_K, 0.05);
}

TEST(Azeotrope, AtOneBarIsNoFartherFromASingleRowThanOtherPublicationsAre) {
  // Susial Badajoz et al. 2021: x 0.899 and 351.39 K at 100 kPa, above the azeotrope at the
  // higher 101.3 kPa (351.26 to 351.32 K), which no equilibrium can do. The others, moved to
  // 100 kPa along the model's line, say how far out the row is; half a printed digit on top.
  const regression::Row& susial = azeotrope_of("Susial2021");
  ASSERT_EQ(susial.pressure_kPa, 100.0);
  const Azeotrope here = azeotrope(Pressure::kilopascals(susial.pressure_kPa));
  double farthest_x = 0.0, farthest_K = 0.0;
  for (const char* whom : {"Evans1916", "Kamihama2012"}) {
    const regression::Row& row = azeotrope_of(whom);
    EXPECT_GT(susial.temperature_K, row.temperature_K) << whom;
    const Azeotrope there = azeotrope(Pressure::kilopascals(row.pressure_kPa));
    const double x = row.liquid + (here.ethanol - there.ethanol).fraction();
    const double t_K = row.temperature_K + (here.temperature - there.temperature).kelvins();
    farthest_x = std::fmax(farthest_x, std::abs(x - susial.liquid));
    farthest_K = std::fmax(farthest_K, std::abs(t_K - susial.temperature_K));
  }
  EXPECT_NEAR(here.ethanol.fraction(), susial.liquid, farthest_x + 0.0005);
  EXPECT_NEAR(here.temperature.kelvins(), susial.temperature_K, farthest_K + 0.005);
}

TEST(Azeotrope, AtAThirdOfAnAtmosphereLiesWherePublished) {
  // Voutsas 2011: the row with x = y, 0.931 and 325.43 K. Between its rows at 0.931 and 0.932
  // y - x goes from 0 to 0.002, and at 0.913 it is 0 again: y repeats to 0.002. What that moves
  // the crossing by is 0.002 over the slope of y - x. In T: the mutual scatter of the group.
  const regression::Row& row = azeotrope_of("Voutsas2011");
  const auto p = Pressure::kilopascals(row.pressure_kPa);
  const auto y_less_x = [&](double x) {
    return bubble_point(MoleFraction::fraction(x), p).vapour.fraction() - x;
  };
  const double slope = (y_less_x(row.liquid - 0.01) - y_less_x(row.liquid + 0.01)) / 0.02;
  const Azeotrope found = azeotrope(p);
  std::cout << "azeotrope at 32.86 kPa: x " << found.ethanol.fraction() << ", "
            << found.temperature.kelvins() << " K; y - x falls by " << slope << " with x\n";
  EXPECT_NEAR(found.ethanol.fraction(), row.liquid, 0.002 / slope);
  EXPECT_NEAR(found.temperature.kelvins(), row.temperature_K,
              regression::mutual_scatter(rows(), "Voutsas2011").temperature_K.rms);
}

}  // namespace
}  // namespace lynearm::vapour
