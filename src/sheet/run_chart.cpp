#include "sheet/run_chart.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sheet/batch_words.hpp"
#include "spirit/strength.hpp"

namespace lynearm::sheet {

using units::System;

double figure_of(units::Temperature t, System system) {
  return system == System::us ? t.fahrenheit() : t.celsius();
}

double figure_of(units::Volume volume, System system) {
  return system == System::us ? volume.us_gallons() : volume.litres();
}

double figure_of(units::VolumeStrength strength, System system) {
  return system == System::us ? spirit::proof(spirit::mass_fraction(strength)).degrees()
                              : strength.percent();
}

Axis temperature_axis(System system, const std::vector<double>& all) {
  Axis axis{"Temperature", temperature_unit(system), {}, {}};
  if (all.empty()) return axis;
  const double least = system == System::us ? 9.0 : 5.0;
  const auto [low, high] = std::minmax_element(all.begin(), all.end());
  if (*high - *low < least) {
    const double middle = (*low + *high) / 2;
    axis.from = middle - least / 2;
    axis.to = middle + least / 2;
  }
  return axis;
}

Chart run_chart(const std::vector<still::Point>& points, System system, const std::string& told,
                bool pot) {
  Chart chart;
  chart.x = {"Collected", volume_unit(system), 0.0, {}};
  chart.left = {"At the spout", strength_unit(system), 0.0, {}};
  chart.right = temperature_axis(system);
  const auto line = [&](const char* name, Stroke stroke, bool on_right_axis, const auto& of) {
    Series series{
        .label = name + told, .points = {}, .stroke = stroke, .on_right_axis = on_right_axis};
    for (const still::Point& point : points) {
      series.points.push_back(
          {figure_of(point.collected, system), figure_of(of(point), system)});
    }
    chart.series.push_back(std::move(series));
  };
  line("spout", Stroke::solid, false, [](const still::Point& at) { return at.spout; });
  line("head", Stroke::dash, true, [](const still::Point& at) { return at.head_temperature; });
  if (pot) {
    line("pot", Stroke::dot, true, [](const still::Point& at) { return at.pot_temperature; });
  }
  return chart;
}

void add_cut(Chart& chart, const still::Fraction& cut, const std::string& name, System system) {
  const double from = figure_of(cut.from.collected, system);
  const double to = figure_of(cut.to.collected, system);
  if (to > from) chart.ranges.push_back({from, to, name});
}

void add_hearts_borders(Chart& chart, const still::Fraction& hearts, System system) {
  const System one = system == System::us ? System::us : System::metric;
  const auto border = [&](const still::Point& at, const char* what) {
    chart.borders.push_back(
        {figure_of(at.collected, system),
         fmt::format("{}: {} at the spout, head {}", what,
                     units::print(at.spout, figure_of(at.spout, System::us), one),
                     units::print(at.head_temperature, one))});
  };
  border(hearts.from, "hearts begin");
  border(hearts.to, "hearts end");
}

}  // namespace lynearm::sheet
