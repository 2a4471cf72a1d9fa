// Traces in water, in ethanol and between, against what is published or recalled of them:
// constants in water at 25 °C (data/congener_henry.csv), NRTL pairs fitted at the boil, and the
// order and trend of volatilities in a still. Measured volatilities over boiling spirit are
// published (Athès et al. 2008, Puentes et al. 2018) but only their abstracts were open to us.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>

#include "places.hpp"
#include "spirit/strength.hpp"
#include "vapour/congener.hpp"
#include "vapour/equilibrium.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

using units::MoleFraction;
using units::Pressure;
using units::Temperature;

constexpr Pressure one_atmosphere = Pressure::kilopascals(101.325);

Temperature boil(double x) {
  return bubble_point(MoleFraction::fraction(x), one_atmosphere).temperature;
}

double beside_ethanol(std::string_view id, double x) {
  return relative_volatility(congener(id), MoleFraction::fraction(x), boil(x));
}

double mole_fraction(double percent_vol) {
  return spirit::mole_fraction(
             spirit::mass_fraction(units::VolumeStrength::percent(percent_vol)))
      .fraction();
}

TEST(CongenersInWater, StandWithinTheScatterOfConstantsAt25C) {
  std::ifstream file(LYNEARM_SOURCE_DIR "/tests/published/data/congener_henry.csv");
  int rows = 0, agree = 0;
  double sum = 0.0;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line[0] == '#') continue;
    std::istringstream cells(line);
    std::string id, source, quantity, value, factor, reason;
    for (std::string* cell : {&id, &source, &quantity, &value, &factor}) {
      ASSERT_TRUE(std::getline(cells, *cell, ',')) << line;
    }
    std::getline(cells, reason);
    const Congener& row = congener(id);
    const auto water = MoleFraction::fraction(0.0);
    const auto t = Temperature::kelvins(298.15);
    const double ours = quantity == "henry"
                            ? volatility(row, water, t, one_atmosphere) * 101325.0
                            : activity_coefficient(row, water, t);
    const double off = std::log(ours / std::stod(value));
    EXPECT_LE(std::abs(off), std::log(std::stod(factor))) << line << ": ours " << ours;
    // A row that is held to more than its scatter says why.
    if (std::stod(factor) != 2.0 && std::stod(factor) != 1.2) {
      EXPECT_FALSE(reason.empty()) << line;
    }
    std::cout << id << ", " << source << ", " << quantity << ": ours " << ours << ", theirs "
              << value << ", ratio " << std::exp(off)
              << (reason.empty() ? "" : " (" + reason + ")") << '\n';
    ++rows;
    if (reason.empty()) {
      ++agree;
      sum += off * off;
    }
  }
  EXPECT_EQ(rows, 31);
  EXPECT_EQ(agree, 22);
  std::cout << rows << " rows; without those that say why they disagree: " << agree
            << ", RMS factor " << std::exp(std::sqrt(sum / agree)) << '\n';
}

// Pair of NRTL, tau = b/T.
struct Pair {
  double there_K, back_K, alpha;
};

// ln of the activity coefficient of a trace (3) in ethanol (1) and water (2). From the general
// form of Renon and Prausnitz with x3 = 0.
double nrtl_trace(const Pair& ethanol_trace, const Pair& water_trace, const Pair& ethanol_water,
                  double x, double t_K) {
  const double xs[] = {x, 1.0 - x};
  const auto tau = [&](double b) { return b / t_K; };
  const auto g = [&](double b, double alpha) { return std::exp(-alpha * b / t_K); };
  // tau(j, i) and G(j, i) among ethanol and water.
  const double tau_ww[2][2] = {{0.0, tau(ethanol_water.there_K)},
                               {tau(ethanol_water.back_K), 0.0}};
  const double g_ww[2][2] = {{1.0, g(ethanol_water.there_K, ethanol_water.alpha)},
                             {g(ethanol_water.back_K, ethanol_water.alpha), 1.0}};
  const Pair* const with[] = {&ethanol_trace, &water_trace};
  double top = 0.0, bottom = 0.0;
  for (int j = 0; j < 2; ++j) {  // tau(j, 3)
    const double b = with[j]->there_K;
    top += xs[j] * tau(b) * g(b, with[j]->alpha);
    bottom += xs[j] * g(b, with[j]->alpha);
  }
  double ln = top / bottom;
  for (int j = 0; j < 2; ++j) {  // over the solvents, with tau(3, j)
    double sum = 0.0, weighted = 0.0;
    for (int k = 0; k < 2; ++k) {
      sum += xs[k] * g_ww[k][j];
      weighted += xs[k] * tau_ww[k][j] * g_ww[k][j];
    }
    const double b = with[j]->back_K;
    ln += xs[j] * g(b, with[j]->alpha) / sum * (tau(b) - weighted / sum);
  }
  return ln;
}

// DECHEMA pairs at 1 atm, through an open parameter file; there: solvent to trace. Ethanol and
// water: -57.9601 and 1241.7396 cal/mol, alpha 0.2937.
constexpr double R_cal = 1.98721;
constexpr Pair ethanol_water{-57.9601 / R_cal, 1241.7396 / R_cal, 0.2937};
struct NrtlRow {
  const char* id;
  Pair ethanol, water;
  double known_to_be_out;  // of ln, where the pair disagrees; else 0
  const char* reason;
};
constexpr NrtlRow nrtl_rows[] = {
    {"methanol", {-35.48161, 33.86174, 0.3009}, {398.9535, -95.13209, 0.2999}, 0.0, ""},
    {"isobutanol", {26.75472, 41.28624, 0.3023}, {1253.528, 321.9686, 0.4385}, 0.0, ""},
    {"isoamyl-alcohol", {25.75, -21.56864, 0.3009}, {1828.465, -249.0126, 0.2816}, 0.0, ""},
    {"ethyl-acetate",
     {166.3193, 153.786, 0.2988},
     {808.2118, 647.1343, 0.4393},
     1.4,
     "the pair gives 20 in water, where constants at 25 °C and both group models give 60 to "
     "80"},
};

TEST(CongenersAtTheBoil, AreComparedWithNrtlPairs) {
  // What an independent implementation has from the same pairs in pure water at 373.17 K, four
  // digits: that our NRTL here is NRTL.
  const auto in_water = [](const NrtlRow& row) {
    return std::exp(nrtl_trace(row.ethanol, row.water, ethanol_water, 0.0, 373.17));
  };
  EXPECT_NEAR(in_water(nrtl_rows[0]), 2.212, 5e-3);
  EXPECT_NEAR(in_water(nrtl_rows[1]), 51.94, 5e-2);
  EXPECT_NEAR(in_water(nrtl_rows[2]), 60.02, 6e-2);
  EXPECT_NEAR(in_water(nrtl_rows[3]), 19.60, 2e-2);
  for (const NrtlRow& row : nrtl_rows) {
    const Congener& found = congener(row.id);
    double worst = 0.0;
    for (const double x : {0.0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.6}) {
      const auto t = boil(x);
      const double theirs = nrtl_trace(row.ethanol, row.water, ethanol_water, x, t.kelvins());
      const double ours = std::log(activity_coefficient(found, MoleFraction::fraction(x), t));
      if (std::abs(ours - theirs) > std::abs(worst)) worst = ours - theirs;
    }
    std::cout << row.id << ": largest ln(ours/NRTL) " << worst << ", ln(spread) "
              << std::log(found.spread.value) << ' ' << row.reason << '\n';
    // Two standard deviations. Of isoamyl alcohol this checks little: its pair is one of the
    // three distances that its spread was judged by.
    const double bound = 2.0 * std::log(found.spread.value);
    EXPECT_LE(std::abs(worst), std::max(bound, row.known_to_be_out)) << row.id;
  }
}

TEST(Methanol, RunsBehindEthanolInWashAndAheadOfItInStrongSpirit) {
  // Both the Dortmund model and the NRTL pairs cross 1 near x 0.2 to 0.3 in the reference; with
  // our ethanol near 0.17. In water at 100 °C its volatility is 7.4 to 7.8 (from memory).
  EXPECT_LT(beside_ethanol("methanol", 0.01), 0.75);
  EXPECT_LT(beside_ethanol("methanol", 0.1), 1.0);
  EXPECT_GT(beside_ethanol("methanol", 0.3), 1.0);
  // It rises all the way, and lies level at 1.67 from x 0.9 on.
  double before = 0.0;
  for (int i = 0; i <= 40; ++i) {
    const double alpha = beside_ethanol("methanol", i * 0.02);
    EXPECT_GT(alpha, before);
    before = alpha;
  }
  const Congener& methanol = congener("methanol");
  const double in_water = volatility(methanol, MoleFraction::fraction(0.0),
                                     Temperature::celsius(100.0), one_atmosphere);
  EXPECT_GT(in_water * methanol.spread.value, 7.4);
  EXPECT_LT(in_water / methanol.spread.value, 7.8);
}

TEST(Fusels, LeadInWashAndLagInStrongSpirit) {
  for (const char* id : {"isobutanol", "isoamyl-alcohol", "active-amyl-alcohol"}) {
    EXPECT_GT(beside_ethanol(id, mole_fraction(8.0)), 1.5) << id;
    EXPECT_LT(beside_ethanol(id, mole_fraction(80.0)), 0.5) << id;
  }
  // Sorel's and Barbet's old factors put isoamyl alcohol level with the mixture at about 42
  // %vol (from memory, low confidence). Ours crosses lower, at 31 to 33 %vol: within its
  // spread.
  EXPECT_GT(beside_ethanol("isoamyl-alcohol", mole_fraction(25.0)), 1.0);
  EXPECT_LT(beside_ethanol("isoamyl-alcohol", mole_fraction(42.0)), 1.0);
  EXPECT_GT(beside_ethanol("isoamyl-alcohol", mole_fraction(42.0)) *
                congener("isoamyl-alcohol").spread.value,
            1.0);
}

TEST(Volatilities, FallByOrdersOfMagnitudeAsEthanolRises) {
  // Athès et al. 2008 (abstract): partition coefficients of 13 aroma compounds fall by orders
  // of magnitude from 10 to 90 %vol. Fusels, esters, furfural, phenylethanol here.
  const double weak = mole_fraction(10.0);
  const double strong = mole_fraction(90.0);
  for (const char* id : {"isobutanol", "isoamyl-alcohol", "active-amyl-alcohol", "acetal",
                         "ethyl-acetate", "ethyl-hexanoate", "ethyl-octanoate",
                         "ethyl-decanoate", "furfural", "2-phenylethanol", "ethyl-lactate"}) {
    const auto k = [&](double x) {
      return volatility(congener(id), MoleFraction::fraction(x), boil(x), one_atmosphere);
    };
    const double fall = k(weak) / k(strong);
    std::cout << id << ": K falls " << fall << " times from 10 to 90 %vol\n";
    EXPECT_GT(fall, 10.0) << id;
  }
  // Chang 1949 (abstract): the volatility of esters beside ethanol rises steeply below 30 mol
  // %.
  for (const char* id : {"ethyl-hexanoate", "ethyl-octanoate", "ethyl-decanoate"}) {
    EXPECT_GT(beside_ethanol(id, 0.05), 5.0 * beside_ethanol(id, 0.3)) << id;
  }
}

struct Recalled {
  const char* id;
  double low[3], high[3];  // at 5 to 10, 30 and 60 %vol
  double most;             // how far out, as a factor beyond the band
  const char* reason;
};
// Volatilities beside ethanol by order of magnitude, from memory, +-40 % on both ends.
constexpr Recalled recalled[] = {
    {"acetaldehyde", {3, 3, 3}, {5, 4, 4}, 1.05, "rises to 5.6 at 60 %vol"},
    {"ethyl-acetate",
     {4, 3, 1.8},
     {8, 4, 2.2},
     1.5,
     "both group models and the constants at 25 °C put it higher; the recalled lean on NRTL"},
    {"1-propanol", {0.9, 0.8, 0.6}, {1.2, 0.8, 0.6}, 1.0, ""},
    {"isobutanol", {1.5, 1.0, 0.6}, {2.0, 1.0, 0.6}, 1.0, ""},
    {"isoamyl-alcohol", {1.5, 0.8, 0.4}, {2.2, 1.0, 0.4}, 1.0, ""},
    {"ethyl-lactate",
     {0.3, 0.15, 0.1},
     {0.3, 0.15, 0.1},
     1.5,
     "half of it; its vapour pressure is a line through two points"},
    {"furfural",
     {0.3, 0.15, 0.1},
     {0.4, 0.2, 0.1},
     1.7,
     "original UNIFAC would be half of ours in strong spirit"},
    {"2-phenylethanol",
     {0.05, 0.03, 0.01},
     {0.1, 0.03, 0.02},
     2.1,
     "after being brought to the quoted constant; the bare models have ten times the recalled"},
    {"acetic-acid", {0.06, 0.06, 0.06}, {0.1, 0.1, 0.1}, 1.0, ""},
};

TEST(Volatilities, StandNearTheOrdersOfMagnitudeRecalled) {
  for (const Recalled& row : recalled) {
    constexpr double strengths[] = {7.5, 30.0, 60.0};
    double worst = 1.0;
    for (int i = 0; i < 3; ++i) {
      const double alpha = beside_ethanol(row.id, mole_fraction(strengths[i]));
      const double above = alpha / (1.4 * row.high[i]);
      const double below = 0.6 * row.low[i] / alpha;
      worst = std::max({worst, above, below});
      std::cout << row.id << " at " << strengths[i] << " %vol: " << alpha << ", recalled "
                << row.low[i] << " to " << row.high[i] << '\n';
    }
    EXPECT_LE(worst, row.most) << row.id << ": " << row.reason;
  }
}

}  // namespace
}  // namespace lynearm::vapour
