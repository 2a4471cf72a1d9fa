#include "sheet/chart.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <tuple>

#include "base/error.hpp"

namespace lynearm::sheet {

namespace {

constexpr double letter_mm = 3.1;
constexpr double figure_mm = 2.9;
constexpr double strip_mm = 4.8;
constexpr double flag_row_mm = 4.2;
constexpr double leader_mm = 3.0;
constexpr double name_width_mm = 30.0;

// Least and greatest of what an axis has to cover.
class Cover {
 public:
  void add(double value) {
    base::ensure(std::isfinite(value), "a chart's figures are finite");
    low_ = std::min(low_, value);
    high_ = std::max(high_, value);
  }
  void add(const Axis& axis) {
    if (axis.from) add(*axis.from);
    if (axis.to) add(*axis.to);
  }
  // A flat line gets a little room above and below.
  void open_up() {
    if (low_ > high_) low_ = 0.0, high_ = 1.0;
    const double least = std::max(1e-6, 1e-6 * std::max(std::abs(low_), std::abs(high_)));
    if (high_ - low_ > least) return;
    const double room = std::max(1.0, 0.05 * std::abs(high_));
    low_ -= room;
    high_ += room;
  }
  [[nodiscard]] double low() const { return low_; }
  [[nodiscard]] double high() const { return high_; }

 private:
  double low_ = 1e300;
  double high_ = -1e300;
};

struct Scale {
  double low, high, at_low, at_high;
  [[nodiscard]] double operator()(double value) const {
    return at_low + (value - low) / (high - low) * (at_high - at_low);
  }
};

std::string title(const Axis& axis) {
  return axis.unit.empty() ? axis.name : axis.name + ", " + axis.unit;
}

// One chart on its way to paper: measured in the constructor, then drawn.
class Plot {
 public:
  explicit Plot(const Chart& chart);
  Drawing finish();

 private:
  void cover();
  void name_ranges();
  void set_margins();
  void ticks_of_x();
  void draw_ranges(Writer& out);
  void draw_axes(Writer& out);
  void draw_series(Writer& out);
  void draw_marks(Writer& out);
  void draw_names(Writer& out);
  void draw_flags(Writer& out);
  void add(Writer& out, Label label);

  [[nodiscard]] Scale scale_y(bool right) const {
    const Ticks& ticks = right ? right_ : left_;
    return {ticks.at.front(), ticks.at.back(), plot_.bottom, plot_.top};
  }
  [[nodiscard]] Label end_name(const Series& series) const {
    const std::string text =
        series.on_right_axis ? series.label + " (right scale)" : series.label;
    return {.lines = wrap(text, name_width_mm, letter_mm), .size_mm = letter_mm};
  }

  const Chart& chart_;
  Cover cover_x_;
  Ticks x_, left_, right_;
  Box plot_;
  double names_right_ = 0.0;  // right edge of the column of line names
  double height_ = 0.0;
  double flags_foot_ = 0.0;
  Scale to_x_{};
  std::vector<Label> strip_names_;
  std::vector<Border> flags_;  // what flies above the plot
  std::vector<Label> labels_;
};

Plot::Plot(const Chart& chart) : chart_(chart) {
  base::ensure(!chart.series.empty(), "a chart has a line");
  base::ensure(chart.width_mm >= 80.0, "a chart has room for its names");
  for (const Series& series : chart.series) {
    base::ensure(!series.points.empty(), "a line has points");
    base::ensure(!series.on_right_axis || chart.right, "a line's axis is there");
  }
  cover();
  // The margins depend on the names that fly as flags, and those on the width of the plot: so
  // once with all names flying, then with those that have to.
  for (const Range& range : chart.ranges) {
    flags_.push_back({(range.from + range.to) / 2, range.name});
  }
  flags_.insert(flags_.end(), chart.borders.begin(), chart.borders.end());
  set_margins();
  name_ranges();
  set_margins();
  name_ranges();
}

void Plot::cover() {
  Cover left;
  Cover right;
  for (const Series& series : chart_.series) {
    Cover& y = series.on_right_axis ? right : left;
    for (const Point& point : series.points) cover_x_.add(point.x), y.add(point.y);
    for (const Between& b : series.band) cover_x_.add(b.x), y.add(b.low), y.add(b.high);
  }
  for (const Marks& marks : chart_.marks) {
    base::ensure(!marks.on_right_axis || chart_.right, "a mark's axis is there");
    Cover& y = marks.on_right_axis ? right : left;
    for (const Point& point : marks.points) cover_x_.add(point.x), y.add(point.y);
  }
  for (const Border& border : chart_.borders) cover_x_.add(border.x);
  for (const Range& range : chart_.ranges) cover_x_.add(range.from), cover_x_.add(range.to);
  cover_x_.add(chart_.x);
  left.add(chart_.left);
  if (chart_.right) right.add(*chart_.right);
  cover_x_.open_up();
  left.open_up();
  right.open_up();
  const int wanted = std::clamp(static_cast<int>(chart_.plot_mm / 12.0), 3, 12);
  if (chart_.right) {
    std::tie(left_, right_) =
        ticks_of_both(left.low(), left.high(), right.low(), right.high(), wanted);
  } else {
    left_ = ticks_covering(left.low(), left.high(), wanted);
  }
}

// The room a flag's text takes from its pole on.
double flag_width(const Border& flag) { return text_width_mm(flag.label, letter_mm) + 2.6; }

void Plot::set_margins() {
  const auto widest = [](const Ticks& ticks) {
    double width = 0.0;
    for (const double at : ticks.at) {
      width = std::max(width, text_width_mm(ticks.text(at), figure_mm));
    }
    return width;
  };
  plot_.left = widest(left_) + 2.2;
  double names_width = 0.0;
  double names_height = 0.0;
  for (const Series& series : chart_.series) {
    const Label name = end_name(series);
    names_width = std::max(names_width, name.width());
    names_height += name.height();
  }
  const double right_axis = chart_.right ? widest(right_) + 4.6 : 0.0;
  double margin = leader_mm + names_width + right_axis;
  for (const Border& flag : flags_) {
    // Solved for the margin that lets the flag end at the edge of the paper.
    const double share = (flag.x - cover_x_.low()) / (cover_x_.high() - cover_x_.low());
    const double room = (1.0 - share) * (chart_.width_mm - plot_.left);
    if (share > 0.0) margin = std::max(margin, (flag_width(flag) - room) / share);
  }
  plot_.right = chart_.width_mm - margin;
  names_right_ = chart_.width_mm - right_axis;
  base::ensure(plot_.width() >= 20.0, "a chart's names leave room for its lines");
  to_x_ = {cover_x_.low(), cover_x_.high(), plot_.left, plot_.right};

  double top = letter_mm * line_height + 1.2;
  if (chart_.right &&
      text_width_mm(title(chart_.left) + title(*chart_.right), letter_mm) + 5.0 >
          chart_.width_mm) {
    top += letter_mm * line_height;
  }
  std::vector<Flag> flags;
  for (const Border& flag : flags_)
    flags.push_back({to_x_(flag.x), flag_width(flag), flag_row_mm});
  const std::vector<double> feet = fly(flags);
  if (!feet.empty()) top += flag_row_mm + *std::max_element(feet.begin(), feet.end());
  flags_foot_ = top;
  plot_.top = top + (chart_.ranges.empty() ? 0.8 : strip_mm);
  plot_.bottom = plot_.top + std::max(chart_.plot_mm, names_height);
  ticks_of_x();
  height_ = plot_.bottom + 2.2 + (figure_mm + letter_mm) * line_height + 0.6;
}

void Plot::ticks_of_x() {
  for (int wanted = 12; wanted >= 1; --wanted) {
    x_ = ticks_inside(cover_x_.low(), cover_x_.high(), wanted, chart_.x.unit == "min",
                      chart_.x.unit == "h");
    double widest = 0.0;
    for (const double at : x_.at) {
      widest = std::max(widest, text_width_mm(x_.text(at), figure_mm));
    }
    const double apart = std::abs(to_x_(x_.step) - to_x_(0.0));
    if (x_.at.size() < 2 || apart >= widest + 4.0) return;
  }
}

// A range's name stands in the strip where it fits clear of all borders, else it flies as a
// flag.
void Plot::name_ranges() {
  flags_ = chart_.borders;
  strip_names_.clear();
  for (const Range& range : chart_.ranges) {
    base::ensure(range.from <= range.to, "a range begins before it ends");
    std::vector<double> edges = {to_x_(range.from), to_x_(range.to)};
    for (const Border& border : chart_.borders) {
      const double x = to_x_(border.x);
      if (x > edges.front() && x < edges.back()) edges.push_back(x);
    }
    std::sort(edges.begin(), edges.end());
    std::size_t widest = 1;
    for (std::size_t i = 1; i < edges.size(); ++i) {
      if (edges[i] - edges[i - 1] > edges[widest] - edges[widest - 1]) widest = i;
    }
    const double room = edges[widest] - edges[widest - 1];
    if (text_width_mm(range.name, letter_mm) + 1.4 <= room) {
      strip_names_.push_back({.lines = {range.name},
                              .x = (edges[widest] + edges[widest - 1]) / 2,
                              .top = flags_foot_ + (strip_mm - line_height * letter_mm) / 2,
                              .size_mm = letter_mm,
                              .anchor = Anchor::middle});
    } else {
      flags_.push_back({(range.from + range.to) / 2, range.name});
    }
  }
}

void Plot::add(Writer& out, Label label) {
  write(out, label);
  labels_.push_back(std::move(label));
}

Attributes hairline(double x1, double y1, double x2, double y2, double width = 0.15,
                    std::string_view colour = "#000") {
  return {{"x1", x1}, {"y1", y1},         {"x2", x2},
          {"y2", y2}, {"stroke", colour}, {"stroke-width", width}};
}

void Plot::draw_ranges(Writer& out) {
  bool shaded = true;
  for (const Range& range : chart_.ranges) {
    const double left = to_x_(range.from);
    const double width = to_x_(range.to) - left;
    if (shaded) {
      out.leaf("rect", {{"x", left},
                        {"y", plot_.top},
                        {"width", width},
                        {"height", plot_.height()},
                        {"fill", "#f0f0f0"}});
    }
    shaded = !shaded;
    out.leaf("rect", {{"x", left},
                      {"y", flags_foot_},
                      {"width", width},
                      {"height", strip_mm},
                      {"fill", "none"},
                      {"stroke", "#000"},
                      {"stroke-width", 0.15}});
  }
  for (const Label& name : strip_names_) add(out, name);
}

void Plot::draw_axes(Writer& out) {
  const Scale y = scale_y(false);
  for (const double at : left_.at) {
    out.leaf("line", hairline(plot_.left, y(at), plot_.right, y(at), 0.1, "#aaa"));
    add(out, {.lines = {left_.text(at)},
              .x = plot_.left - 1.4,
              .top = y(at) - line_height * figure_mm / 2,
              .size_mm = figure_mm,
              .anchor = Anchor::end});
  }
  out.leaf("line", hairline(plot_.left, plot_.top, plot_.left, plot_.bottom, 0.2));
  out.leaf("line", hairline(plot_.left, plot_.bottom, plot_.right, plot_.bottom, 0.2));
  for (const double at : x_.at) {
    const double x = to_x_(at);
    out.leaf("line", hairline(x, plot_.bottom, x, plot_.bottom + 1.2));
    add(out, {.lines = {x_.text(at)},
              .x = x,
              .top = plot_.bottom + 2.0,
              .size_mm = figure_mm,
              .anchor = Anchor::middle});
  }
  add(out, {.lines = {title(chart_.x)},
            .x = plot_.right,
            .top = plot_.bottom + 2.2 + figure_mm * line_height,
            .size_mm = letter_mm,
            .anchor = Anchor::end});
  add(out, {.lines = {title(chart_.left)}, .x = 0.0, .top = 0.0, .size_mm = letter_mm});
  if (!chart_.right) return;

  const Scale right = scale_y(true);
  const double axis = names_right_ + 1.8;
  out.leaf("line", hairline(axis, plot_.top, axis, plot_.bottom, 0.2));
  for (const double at : right_.at) {
    out.leaf("line", hairline(plot_.right, right(at), plot_.right - 1.0, right(at)));
    out.leaf("line", hairline(axis, right(at), axis + 1.0, right(at)));
    add(out, {.lines = {right_.text(at)},
              .x = chart_.width_mm,
              .top = right(at) - line_height * figure_mm / 2,
              .size_mm = figure_mm,
              .anchor = Anchor::end});
  }
  const double one_row =
      text_width_mm(title(chart_.left) + title(*chart_.right), letter_mm) + 5.0;
  add(out, {.lines = {title(*chart_.right)},
            .x = chart_.width_mm,
            .top = one_row > chart_.width_mm ? letter_mm * line_height : 0.0,
            .size_mm = letter_mm,
            .anchor = Anchor::end});
}

Attributes stroke_of(Stroke stroke) {
  switch (stroke) {
    case Stroke::solid:
      return {{"stroke-width", 0.45}};
    case Stroke::dash:
      return {{"stroke-width", 0.45}, {"stroke-dasharray", "2.6 1.3"}};
    case Stroke::dot:
      return {
          {"stroke-width", 0.6}, {"stroke-dasharray", "0.01 1.2"}, {"stroke-linecap", "round"}};
    case Stroke::dash_dot:
      return {{"stroke-width", 0.45}, {"stroke-dasharray", "3.6 1 0.6 1"}};
  }
  return {};
}

void Plot::draw_series(Writer& out) {
  for (const Series& series : chart_.series) {
    if (series.band.size() < 2) continue;
    const Scale y = scale_y(series.on_right_axis);
    Path path;
    path.move(to_x_(series.band.front().x), y(series.band.front().low));
    for (const Between& b : series.band) path.line(to_x_(b.x), y(b.low));
    for (auto b = series.band.rbegin(); b != series.band.rend(); ++b) {
      path.line(to_x_(b->x), y(b->high));
    }
    out.leaf("path", {{"d", path.shut().data()}, {"fill", "#000"}, {"fill-opacity", 0.13}});
  }
  for (const Series& series : chart_.series) {
    const Scale y = scale_y(series.on_right_axis);
    Path path;
    path.move(to_x_(series.points.front().x), y(series.points.front().y));
    for (const Point& point : series.points) path.line(to_x_(point.x), y(point.y));
    Attributes attributes = {{"d", path.data()}, {"fill", "none"}, {"stroke", "#000"}};
    for (const Attribute& a : stroke_of(series.stroke)) attributes.push_back(a);
    out.leaf("path", attributes);
  }
}

void Plot::draw_marks(Writer& out) {
  constexpr double r = 0.95;
  for (const Marks& marks : chart_.marks) {
    const Scale y = scale_y(marks.on_right_axis);
    for (const Point& point : marks.points) {
      const double at_x = to_x_(point.x);
      const double at_y = y(point.y);
      if (marks.sign == Sign::ring) {
        out.leaf("circle", {{"cx", at_x},
                            {"cy", at_y},
                            {"r", r},
                            {"fill", "#fff"},
                            {"stroke", "#000"},
                            {"stroke-width", 0.3}});
        continue;
      }
      Path path;
      if (marks.sign == Sign::cross) {
        path.move(at_x - r, at_y - r).line(at_x + r, at_y + r);
        path.move(at_x - r, at_y + r).line(at_x + r, at_y - r);
      } else if (marks.sign == Sign::square) {
        path.move(at_x - r, at_y - r).line(at_x + r, at_y - r).line(at_x + r, at_y + r);
        path.line(at_x - r, at_y + r).shut();
      } else {
        path.move(at_x, at_y - 1.2 * r).line(at_x + r, at_y + 0.8 * r);
        path.line(at_x - r, at_y + 0.8 * r).shut();
      }
      out.leaf("path", {{"d", path.data()},
                        {"fill", marks.sign == Sign::cross ? "none" : "#fff"},
                        {"stroke", "#000"},
                        {"stroke-width", 0.3}});
    }
  }
}

void Plot::draw_names(Writer& out) {
  std::vector<std::size_t> order(chart_.series.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto end_y = [&](std::size_t i) {
    const Series& series = chart_.series[i];
    return scale_y(series.on_right_axis)(series.points.back().y);
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return end_y(a) < end_y(b); });
  std::vector<double> wanted;
  std::vector<double> heights;
  for (const std::size_t i : order) {
    wanted.push_back(end_y(i));
    heights.push_back(end_name(chart_.series[i]).height());
  }
  const std::vector<double> centres = spread(wanted, heights, plot_.top, plot_.bottom);
  for (std::size_t k = 0; k < order.size(); ++k) {
    Label name = end_name(chart_.series[order[k]]);
    name.x = plot_.right + leader_mm;
    name.top = centres[k] - heights[k] / 2;
    const double x = to_x_(chart_.series[order[k]].points.back().x);
    Path leader;
    leader.move(x, wanted[k]);
    if (x < plot_.right) leader.line(plot_.right, wanted[k]);
    leader.line(name.x - 0.7, centres[k]);
    out.leaf(
        "path",
        {{"d", leader.data()}, {"fill", "none"}, {"stroke", "#000"}, {"stroke-width", 0.15}});
    add(out, name);
  }
}

void Plot::draw_flags(Writer& out) {
  std::vector<Flag> flags;
  for (const Border& flag : flags_)
    flags.push_back({to_x_(flag.x), flag_width(flag), flag_row_mm});
  const std::vector<double> feet = fly(flags);
  for (std::size_t i = 0; i < flags.size(); ++i) {
    const bool border = i < chart_.borders.size();
    const double top = flags_foot_ - feet[i] - flag_row_mm;
    out.leaf("line", hairline(flags[i].x, top + 0.4, flags[i].x,
                              border ? plot_.bottom : flags_foot_ + strip_mm / 2,
                              border ? 0.35 : 0.15));
    add(out, {.lines = {flags_[i].label},
              .x = flags[i].x + 0.9,
              .top = top + 0.2,
              .size_mm = letter_mm});
  }
}

Drawing Plot::finish() {
  Writer out;
  open_drawing(out, chart_.width_mm, height_, chart_.description);
  draw_ranges(out);
  draw_axes(out);
  draw_series(out);
  draw_marks(out);
  draw_flags(out);
  draw_names(out);
  out.close();
  return {out.finish(), chart_.width_mm, height_, labels_};
}

}  // namespace

Drawing draw(const Chart& chart) { return Plot(chart).finish(); }

}  // namespace lynearm::sheet
