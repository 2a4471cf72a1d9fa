// The picture of one instrument in one run: readings about the fitted curve, and the residuals
// under it on the same hours.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "sheet/axis.hpp"
#include "sheet/still_report.hpp"
#include "sheet/svg.hpp"

namespace lynearm::sheet {
namespace {

constexpr double width_mm = 170.0, left_mm = 15.0, right_mm = 3.0;
constexpr double head_mm = 6.0, curve_mm = 46.0, between_mm = 8.0, rest_mm = 24.0;
constexpr double foot_mm = 11.0, letter_mm = 3.0, ring_mm = 0.9;

struct Panel {
  double top = 0.0, height = 0.0;
  Ticks ticks;

  [[nodiscard]] double y(double value) const {
    const double low = ticks.at.front(), high = ticks.at.back();
    return top + height * (high - std::clamp(value, low, high)) / (high - low);
  }
};

struct Frame {
  Writer& out;
  Drawing& drawing;
  double from_h, to_h;

  [[nodiscard]] double x(double hours) const {
    return left_mm + (width_mm - left_mm - right_mm) * (hours - from_h) / (to_h - from_h);
  }
  void line(double x1, double y1, double x2, double y2, double width, const char* dash = "",
            const char* colour = "#000") const {
    Attributes a = {{"x1", x1}, {"y1", y1},         {"x2", x2},
                    {"y2", y2}, {"stroke", colour}, {"stroke-width", width}};
    if (*dash != '\0') a.emplace_back("stroke-dasharray", dash);
    out.leaf("line", a);
  }
  void label(std::string text, double at_x, double top, Anchor anchor) const {
    Label label{{std::move(text)}, at_x, top, letter_mm, anchor, Weight::regular};
    write(out, label);
    drawing.labels.push_back(std::move(label));
  }
  void axes(const Panel& panel, const std::string& name) const {
    for (const double at : panel.ticks.at) {
      line(left_mm, panel.y(at), width_mm - right_mm, panel.y(at), 0.1, "", "#aaa");
      label(panel.ticks.text(at), left_mm - 1.4, panel.y(at) - 0.5 * line_height * letter_mm,
            Anchor::end);
    }
    line(left_mm, panel.top, left_mm, panel.top + panel.height, 0.2);
    label(name, left_mm + 1.0, panel.top - line_height * letter_mm - 0.9, Anchor::start);
  }
  void mark(double at_x, double at_y, bool outlying) const {
    if (outlying) {
      line(at_x - ring_mm, at_y - ring_mm, at_x + ring_mm, at_y + ring_mm, 0.4);
      line(at_x - ring_mm, at_y + ring_mm, at_x + ring_mm, at_y - ring_mm, 0.4);
    } else {
      out.leaf("circle", {{"cx", at_x},
                          {"cy", at_y},
                          {"r", ring_mm},
                          {"fill", "#fff"},
                          {"fill-opacity", 0.6},
                          {"stroke", "#000"},
                          {"stroke-width", 0.25}});
    }
  }
};

}  // namespace

Drawing residual_picture(const still::StillFit& fit, int run, still::LogInstrument instrument) {
  std::vector<still::FittedReading> own;
  for (const still::FittedReading& r : fit.readings) {
    if (r.run == run && r.seen.instrument == instrument) own.push_back(r);
  }
  base::ensure(!own.empty(), "a picture has readings");
  double low = own.front().expected, high = low, off = 0.0;
  for (const still::FittedReading& r : own) {
    low = std::min(low, r.expected);
    high = std::max(high, r.expected);
    if (!r.outlying) {
      low = std::min(low, r.seen.figure);
      high = std::max(high, r.seen.figure);
      off = std::max(off, std::abs(r.seen.figure - r.expected));
    }
    off = std::max(off, 2.2 * r.spread);
  }
  // Of a single level there is no curve to scale: room about it.
  if (high - low < 1e-6 * (1.0 + std::abs(high))) {
    low -= 0.5;
    high += 0.5;
  }
  const double from_h = own.front().seen.t_s / 3600.0;
  const double to_h = std::max(own.back().seen.t_s / 3600.0, from_h + 0.1);

  Drawing drawing;
  drawing.width_mm = width_mm;
  drawing.height_mm = head_mm + curve_mm + between_mm + rest_mm + foot_mm;
  Writer out;
  open_drawing(out, drawing.width_mm, drawing.height_mm,
               fmt::format("{}: {} readings about the fitted curve, and what they differ by.",
                           still::words(instrument), own.size()));
  const double room_h = 0.02 * (to_h - from_h);
  const Frame frame{out, drawing, from_h - room_h, to_h + room_h};
  const Panel curve{head_mm, curve_mm, ticks_covering(low, high, 5)};
  const Panel rest{head_mm + curve_mm + between_mm, rest_mm, ticks_covering(-off, off, 4)};
  const std::string unit(still::unit_of(instrument));
  frame.axes(curve, fmt::format("{}, {}", still::words(instrument), unit));
  frame.axes(rest, fmt::format("read less fitted, {}", unit));
  frame.line(left_mm, rest.y(0.0), width_mm - right_mm, rest.y(0.0), 0.3);
  const double foot = rest.top + rest.height;
  frame.line(left_mm, foot, width_mm - right_mm, foot, 0.2);
  const Ticks hours = ticks_inside(frame.from_h, frame.to_h, 7, false, true);
  for (const double at : hours.at) {
    frame.line(frame.x(at), foot, frame.x(at), foot + 1.2, 0.2);
    frame.label(hours.text(at), frame.x(at), foot + 1.8, Anchor::middle);
  }
  frame.label("hours since the heat was turned on", width_mm - right_mm,
              foot + 2.0 + line_height * letter_mm, Anchor::end);

  Path fitted, above, below;
  for (std::size_t i = 0; i < own.size(); ++i) {
    const double x = frame.x(own[i].seen.t_s / 3600.0);
    const auto add = [&](Path& path, double y) {
      if (i == 0) {
        path.move(x, y);
      } else {
        path.line(x, y);
      }
    };
    add(fitted, curve.y(own[i].expected));
    add(above, rest.y(2.0 * own[i].spread));
    add(below, rest.y(-2.0 * own[i].spread));
  }
  const auto stroke = [&](const Path& path, double width, const char* dash) {
    Attributes a = {
        {"d", path.data()}, {"fill", "none"}, {"stroke", "#000"}, {"stroke-width", width}};
    if (*dash != '\0') a.emplace_back("stroke-dasharray", dash);
    out.leaf("path", a);
  };
  stroke(fitted, 0.45, "");
  stroke(above, 0.25, "1.6 1");
  stroke(below, 0.25, "1.6 1");
  for (const still::FittedReading& r : own) {
    const double x = frame.x(r.seen.t_s / 3600.0);
    frame.mark(x, curve.y(r.seen.figure), r.outlying);
    frame.mark(x, rest.y(r.seen.figure - r.expected), r.outlying);
  }
  out.close();
  drawing.svg = out.finish();
  return drawing;
}

}  // namespace lynearm::sheet
