// Text on paper: lines within their width, intervals and flags clear of each other.
#include "sheet/letter.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "base/error.hpp"

namespace lynearm::sheet {
namespace {

TEST(TextWidth, figures_are_all_of_one_width_and_bold_is_wider) {
  for (const char* digit : {"1", "4", "7", "9"}) {
    EXPECT_DOUBLE_EQ(text_width_mm(digit, 3.0), text_width_mm("0", 3.0));
  }
  EXPECT_GT(text_width_mm("hearts", 3.0, Weight::bold), text_width_mm("hearts", 3.0));
  EXPECT_DOUBLE_EQ(text_width_mm("hearts", 6.0), 2.0 * text_width_mm("hearts", 3.0));
  EXPECT_DOUBLE_EQ(text_width_mm("", 3.0), 0.0);
}

TEST(Minus, stands_for_a_hyphen_before_a_figure_and_for_no_other) {
  EXPECT_EQ(with_minus("-1.6 °C"), "−1.6 °C");
  EXPECT_EQ(with_minus("from -5 to +5 (-0.3)"), "from −5 to +5 (−0.3)");
  EXPECT_EQ(with_minus("\u00a0-2"), "\u00a0−2");
  EXPECT_EQ(with_minus("27-30, Tern-8, 2026-10-07, a - b, -"),
            "27-30, Tern-8, 2026-10-07, a - b, -");
  EXPECT_EQ(with_minus(""), "");
}

TEST(Wrap, keeps_lines_within_the_width_and_all_words_in_order) {
  const std::string text = "feints kept for the next batch of spirit";
  std::string joined;
  for (const std::string& line : wrap(text, 25.0, 3.0)) {
    EXPECT_LE(text_width_mm(line, 3.0), 25.0) << line;
    joined += (joined.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(joined, text);
}

TEST(Wrap, leaves_a_figure_with_its_unit) {
  EXPECT_EQ(wrap("7 bottles of 0.7 L", 23.0, 2.9),
            (std::vector<std::string>{"7 bottles of", "0.7 L"}));
}

TEST(Wrap, gives_a_line_for_no_text_and_for_a_word_too_wide) {
  EXPECT_EQ(wrap("", 10.0, 3.0), std::vector<std::string>{""});
  EXPECT_EQ(wrap("unaccounted", 1.0, 3.0), std::vector<std::string>{"unaccounted"});
}

TEST(Spread, leaves_alone_what_does_not_touch) {
  EXPECT_EQ(spread({5.0, 20.0}, {4.0, 4.0}, 0.0, 40.0), (std::vector<double>{5.0, 20.0}));
}

TEST(Spread, moves_two_that_touch_equally_apart) {
  EXPECT_EQ(spread({10.0, 10.0}, {4.0, 4.0}, 0.0, 40.0), (std::vector<double>{8.0, 12.0}));
}

TEST(Spread, never_lets_intervals_overlap_and_keeps_them_in_bounds_that_hold_them) {
  std::mt19937 draw(7);
  std::uniform_real_distribution<double> place(0.0, 100.0);
  std::uniform_real_distribution<double> length(1.0, 9.0);
  for (int round = 0; round < 200; ++round) {
    std::vector<double> wanted(10);
    std::vector<double> lengths(10);
    for (double& w : wanted) w = place(draw);
    for (double& l : lengths) l = length(draw);
    std::sort(wanted.begin(), wanted.end());
    const auto at = spread(wanted, lengths, 0.0, 100.0);
    double end = 0.0;
    for (std::size_t i = 0; i < at.size(); ++i) {
      EXPECT_GE(at[i] - lengths[i] / 2, end - 1e-9);
      end = at[i] + lengths[i] / 2;
    }
    EXPECT_LE(end, 100.0 + 1e-9);
  }
}

TEST(Fly, flags_that_do_not_reach_each_other_all_fly_low) {
  EXPECT_EQ(fly({{0, 9, 4}, {10, 9, 4}, {20, 9, 4}}), (std::vector<double>{0, 0, 0}));
}

TEST(Fly, no_text_meets_a_text_or_a_pole) {
  std::mt19937 draw(11);
  std::uniform_real_distribution<double> place(0.0, 100.0);
  std::uniform_real_distribution<double> size(2.0, 30.0);
  for (int round = 0; round < 200; ++round) {
    std::vector<Flag> flags(9);
    for (Flag& flag : flags) flag = {place(draw), size(draw), size(draw) / 5.0};
    const auto feet = fly(flags);
    for (std::size_t i = 0; i < flags.size(); ++i) {
      const Box text = {flags[i].x, feet[i], flags[i].x + flags[i].width,
                        feet[i] + flags[i].height};
      for (std::size_t j = 0; j < flags.size(); ++j) {
        if (i == j) continue;
        const double top = feet[j] + flags[j].height;
        EXPECT_FALSE(overlap(text, {flags[j].x, feet[j], flags[j].x + flags[j].width, top}));
        EXPECT_FALSE(overlap(text, {flags[j].x - 1e-5, 0.0, flags[j].x + 1e-5, top}));
      }
    }
  }
}

}  // namespace
}  // namespace lynearm::sheet
