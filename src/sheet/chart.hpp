// A line chart at true size, black on white.
//
// Lines are told apart by stroke and by a name at their end, not by colour and not in a box
// apart. Ranges of x are shaded and named in a strip along the top (foreshots, heads, ...);
// borders are upright lines with a flag. All texts keep clear of each other: the chart grows
// taller, or the plot narrower, until they do.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/axis.hpp"
#include "sheet/letter.hpp"

namespace lynearm::sheet {

enum class Stroke { solid, dash, dot, dash_dot };

/// A point, in the units its axes name.
struct Point {
  double x = 0.0;
  double y = 0.0;
};

/// What lies between `low` and `high` at x: an 80 % band, say.
struct Between {
  double x = 0.0;
  double low = 0.0;
  double high = 0.0;
};

struct Series {
  std::string label;
  std::vector<Point> points;  ///< in the order they are joined
  Stroke stroke = Stroke::solid;
  std::vector<Between> band = {};
  bool on_right_axis = false;
};

/// What was read, beside the lines that were expected: signs that are not joined. What they
/// stand for is for the caption to say.
enum class Sign { ring, cross, square, triangle };
struct Marks {
  std::vector<Point> points;
  Sign sign = Sign::ring;
  bool on_right_axis = false;
};

/// An upright line: "hearts 72 %vol".
struct Border {
  double x = 0.0;
  std::string label;
};

/// A range of x with a name: a cut, a rest of the mash. In the order of x, not overlapping.
struct Range {
  double from = 0.0;
  double to = 0.0;
  std::string name;
};

struct Chart {
  std::string description;  ///< read out in place of the picture
  Axis x;
  Axis left;
  std::optional<Axis> right = std::nullopt;
  std::vector<Series> series;
  std::vector<Border> borders = {};
  std::vector<Range> ranges = {};
  std::vector<Marks> marks = {};
  double width_mm = 170.0;  ///< 80 or more
  double plot_mm = 62.0;    ///< height of the plot alone, at least
};

/// chart     at least one series; each with a point; every figure finite; a right axis when a
///           series asks for one
/// throws    BrokenInvariant otherwise
[[nodiscard]] Drawing draw(const Chart& chart);

}  // namespace lynearm::sheet
