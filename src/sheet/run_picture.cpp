#include "sheet/run_picture.hpp"

#include <fmt/format.h>

#include <string>
#include <vector>

#include "base/error.hpp"
#include "sheet/batch_words.hpp"
#include "sheet/run_chart.hpp"
#include "spirit/strength.hpp"

namespace lynearm::sheet {
namespace {

using units::System;

constexpr double margin_mm = 4.0;
constexpr double title_mm = 4.2;
constexpr double between_mm = 6.0;

void add_cuts(Chart& chart, const still::ToldRun& told, System system) {
  if (!told.cuts) return;
  for (const still::Part& part : told.parts) {
    add_cut(chart, part.fraction, part.name, system);
  }
}

Chart strengths(const still::ToldRun& told, System system) {
  std::vector<still::Point> points;
  for (const still::Step& step : told.curve) points.push_back(step.point);
  Chart chart = run_chart(points, system);
  chart.description = "Strength and temperatures of a run against what it has given";
  add_cuts(chart, told, system);
  if (told.cuts) add_hearts_borders(chart, told.cuts->hearts, system);
  return chart;
}

// How much of what was charged has come: parted groups show as lines apart.
Chart recovered(const still::ToldRun& told, System system) {
  Chart chart;
  chart.description = "Share of alcohol and congeners of the charge that has come";
  chart.x = {"Collected", volume_unit(system), 0.0, {}};
  chart.left = {"Come of what was charged", "%", 0.0, 100.0};
  chart.plot_mm = 48.0;
  Series alcohol{.label = "alcohol", .points = {}};
  Series early{.label = "early", .points = {}, .stroke = Stroke::dash};
  Series middle{.label = "middle", .points = {}, .stroke = Stroke::dash_dot};
  Series late{.label = "late", .points = {}, .stroke = Stroke::dot};
  const still::Groups charged = still::groups_of(*told.run.charge.congeners);
  const double alcohol_L = spirit::pure_alcohol(told.run.charge.spirit).litres();
  const auto percent = [](double part, double whole) {
    return whole > 0.0 ? 100.0 * part / whole : 0.0;
  };
  for (const still::Step& step : told.curve) {
    const double x = figure_of(step.point.collected, system);
    alcohol.points.push_back({x, percent(step.point.pure_alcohol.litres(), alcohol_L)});
    early.points.push_back({x, percent(step.came.early_g, charged.early_g)});
    middle.points.push_back({x, percent(step.came.middle_g, charged.middle_g)});
    late.points.push_back({x, percent(step.came.late_g, charged.late_g)});
  }
  chart.series = {std::move(alcohol), std::move(early), std::move(middle), std::move(late)};
  add_cuts(chart, told, system);
  return chart;
}

// What stands in a drawing, without its <svg>: a drawing inside another would take its
// millimetres for those of a screen. Type and strokes are those of the outer one, alike.
Html inside(const Drawing& drawing) {
  const std::string& svg = drawing.svg.text;
  const std::size_t begin = svg.find('>');
  const std::size_t end = svg.rfind("</svg>");
  base::ensure(begin != std::string::npos && end != std::string::npos && begin < end,
               "a drawing is one SVG element");
  return {svg.substr(begin + 1, end - begin - 1)};
}

}  // namespace

Drawing run_picture(const still::ToldRun& told, std::string_view title, System system) {
  std::vector<Drawing> plots = {draw(strengths(told, system))};
  if (told.run.charge.congeners) plots.push_back(draw(recovered(told, system)));

  Drawing whole;
  whole.width_mm = plots.front().width_mm + 2.0 * margin_mm;
  const Label heading{.lines = wrap(title, plots.front().width_mm, title_mm, Weight::bold),
                      .x = margin_mm,
                      .top = margin_mm,
                      .size_mm = title_mm,
                      .weight = Weight::bold};
  double top = margin_mm + heading.height() + between_mm;
  std::vector<double> tops;
  for (const Drawing& plot : plots) {
    tops.push_back(top);
    top += plot.height_mm + between_mm;
  }
  whole.height_mm = top - between_mm + margin_mm;
  Writer out;
  open_drawing(out, whole.width_mm, whole.height_mm, title);
  // Paper of its own, for viewers with a dark ground.
  out.leaf("rect", {{"width", whole.width_mm}, {"height", whole.height_mm}, {"fill", "#fff"}});
  write(out, heading);
  whole.labels.push_back(heading);
  for (std::size_t i = 0; i < plots.size(); ++i) {
    out.open("g", {{"transform",
                    fmt::format("translate({} {})", number(margin_mm), number(tops[i]))}});
    out.html(inside(plots[i]));
    out.close();
    for (Label label : plots[i].labels) {
      label.x += margin_mm;
      label.top += tops[i];
      whole.labels.push_back(std::move(label));
    }
  }
  out.close();
  whole.svg = out.finish();
  return whole;
}

std::string svg_file(const Drawing& drawing) {
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + drawing.svg.text + "\n";
}

}  // namespace lynearm::sheet
