// Line charts: every label clear of every other, whatever is to be drawn.
#include "sheet/chart.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "base/error.hpp"
#include "sheet/drawings.hpp"
#include "sheet/examples.hpp"

namespace lynearm::sheet {
namespace {

TEST(Chart, of_a_spirit_run_has_its_labels_clear) { expect_clear(draw(spirit_run())); }
TEST(Chart, of_a_mash_has_its_labels_clear) { expect_clear(draw(mash())); }

TEST(Chart, names_each_line_range_and_border_once) {
  const Chart chart = spirit_run();
  const Drawing drawing = draw(chart);
  const auto count = [&](const std::string& text) {
    return std::count_if(drawing.labels.begin(), drawing.labels.end(),
                         [&](const Label& label) { return label.lines.front() == text; });
  };
  for (const char* name :
       {"foreshots", "heads", "hearts", "tails", "hearts 79.6 %vol", "tails 60 %vol",
        "in the jar", "head (right scale)", "Strength, %vol", "Temperature in the head, °C"}) {
    EXPECT_EQ(count(name), 1) << name;
  }
}

TEST(Chart, keeps_labels_clear_for_any_borders_ranges_and_line_ends) {
  std::mt19937 draw_from(5);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  for (int round = 0; round < 150; ++round) {
    Chart chart{.description = "any",
                .x = {"Time", "min", {}, {}},
                .left = {"Left", "°C", {}, {}},
                .series = {}};
    if (round % 2 == 0) chart.right = Axis{"Right, with a long name to it", "%vol", {}, {}};
    const double scale = std::pow(10.0, 6.0 * share(draw_from) - 2.0);
    for (int k = 0; k < 6; ++k) {
      Series series{.label = "line of the number " + std::to_string(k), .points = {}};
      series.on_right_axis = chart.right && k % 2 == 1;
      for (int i = 0; i < 5; ++i) {
        series.points.push_back({50.0 * i, scale * (1.0 + 0.3 * share(draw_from))});
      }
      chart.series.push_back(series);
    }
    std::vector<double> edges(6);
    for (double& edge : edges) edge = 200.0 * share(draw_from);
    std::sort(edges.begin(), edges.end());
    for (std::size_t i = 1; i < edges.size(); ++i) {
      chart.ranges.push_back({edges[i - 1], edges[i], "range " + std::to_string(i)});
      chart.borders.push_back({edges[i], "border " + std::to_string(i)});
    }
    expect_clear(draw(chart));
    if (HasFailure()) break;
  }
}

TEST(Chart, of_one_point_or_a_flat_line_still_has_axes) {
  Chart chart{.description = "flat",
              .x = {"Time", "h", {}, {}},
              .left = {"Level", "L", {}, {}},
              .series = {{.label = "a", .points = {{1.0, 0.0}}}}};
  expect_clear(draw(chart));
  chart.series[0].points = {{0.0, 5.0}, {10.0, 5.0}};
  expect_clear(draw(chart));
}

TEST(Chart, without_figures_is_our_fault) {
  Chart chart{.description = "", .x = {}, .left = {}, .series = {}};
  EXPECT_THROW((void)draw(chart), base::BrokenInvariant);
  chart.series = {{.label = "a", .points = {{0.0, std::nan("")}}}};
  EXPECT_THROW((void)draw(chart), base::BrokenInvariant);
  chart.series = {{.label = "a", .points = {{0.0, 1.0}}, .on_right_axis = true}};
  EXPECT_THROW((void)draw(chart), base::BrokenInvariant);
}

}  // namespace
}  // namespace lynearm::sheet
