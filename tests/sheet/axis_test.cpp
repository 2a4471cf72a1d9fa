// Ticks: round steps, few enough to read, over all that is drawn.
#include "sheet/axis.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "base/error.hpp"

namespace lynearm::sheet {
namespace {

bool is_round(double step) {
  const double digit = step / std::pow(10.0, std::floor(std::log10(step * (1 + 1e-9))));
  return std::abs(digit - 1) < 1e-6 || std::abs(digit - 2) < 1e-6 || std::abs(digit - 5) < 1e-6;
}

TEST(Ticks, of_a_strength_are_the_tens) {
  EXPECT_EQ(ticks_covering(38.0, 81.0, 5).at,
            (std::vector<double>{30, 40, 50, 60, 70, 80, 90}));
  EXPECT_EQ(ticks_covering(0.0, 100.0, 5).at, (std::vector<double>{0, 20, 40, 60, 80, 100}));
}

TEST(Ticks, show_the_decimals_their_step_needs) {
  const Ticks ticks = ticks_covering(1.010, 1.062, 5);
  EXPECT_EQ(ticks.text(ticks.at.front()), "1.00");
  EXPECT_EQ(ticks_covering(-1.0, 1.0, 4).text(-0.0), "0.0");
}

TEST(Ticks, of_minutes_and_hours_are_those_of_a_clock) {
  EXPECT_EQ(ticks_inside(0.0, 180.0, 12, true, false).step, 15.0);
  EXPECT_EQ(ticks_inside(0.0, 500.0, 10, true, false).step, 60.0);
  EXPECT_EQ(ticks_inside(0.0, 96.0, 8, false, true).step, 12.0);
}

TEST(Ticks, are_round_and_cover_whatever_the_range) {
  std::mt19937 draw(3);
  std::uniform_real_distribution<double> place(-500.0, 500.0);
  std::uniform_real_distribution<double> power(-3.0, 4.0);
  for (int round = 0; round < 500; ++round) {
    const double low = place(draw);
    const double high = low + std::pow(10.0, power(draw));
    const Ticks over = ticks_covering(low, high, 5);
    EXPECT_TRUE(is_round(over.step)) << over.step;
    EXPECT_LE(over.at.front(), low + 1e-8 * over.step);
    EXPECT_GE(over.at.back(), high - 1e-8 * over.step);
    EXPECT_GE(over.at.size(), 3U);
    EXPECT_LE(over.at.size(), 8U);
    for (const double at : ticks_inside(low, high, 8, false, false).at) {
      EXPECT_GE(at, low - 1e-8 * over.step);
      EXPECT_LE(at, high + 1e-8 * over.step);
    }
    const auto [left, right] = ticks_of_both(low, high, 20.0, 78.0, 5);
    EXPECT_EQ(left.at.size(), right.at.size());
    EXPECT_TRUE(is_round(left.step) && is_round(right.step));
    EXPECT_LE(left.at.front(), low + 1e-8 * left.step);
    EXPECT_GE(left.at.back(), high - 1e-8 * left.step);
    EXPECT_LE(right.at.front(), 20.0);
    EXPECT_GE(right.at.back(), 78.0);
  }
}

TEST(Ticks, of_no_range_are_our_fault) {
  EXPECT_THROW((void)ticks_covering(1.0, 1.0, 5), base::BrokenInvariant);
  EXPECT_THROW((void)ticks_covering(0.0, std::nan(""), 5), base::BrokenInvariant);
}

}  // namespace
}  // namespace lynearm::sheet
