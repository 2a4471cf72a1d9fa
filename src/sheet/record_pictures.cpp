#include "sheet/record_pictures.hpp"

#include <array>

#include "sheet/record_thin.hpp"
#include "sheet/record_words.hpp"
#include "sheet/run_chart.hpp"

namespace lynearm::sheet {

using units::System;

namespace {

constexpr std::array<Sign, 4> signs = {Sign::ring, Sign::cross, Sign::square, Sign::triangle};

}  // namespace

const char* sign_words(std::size_t run) {
  constexpr std::array<const char*, 4> names = {"rings", "crosses", "squares", "triangles"};
  return names.at(run % names.size());
}

std::vector<std::optional<units::Volume>> collected_over(const journal::RunState& run) {
  const auto& all = run.readings;
  std::vector<std::optional<units::Volume>> come(all.size());
  std::optional<std::size_t> before;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!all[i].reading.collected) continue;
    const units::Volume here = *all[i].reading.collected;
    come[i] = here;
    if (before) {
      const still::Reading& from = all[*before].reading;
      const units::Duration whole = all[i].reading.at - from.at;
      for (std::size_t k = *before + 1; k < i; ++k) {
        const double share =
            whole <= units::Duration{} ? 0.0 : (all[k].reading.at - from.at) / whole;
        come[k] = *from.collected + (here - *from.collected) * share;
      }
    }
    before = i;
  }
  return come;
}

Drawing mash_record(const plan::MashPlan& mash, const journal::MashState& read,
                    journal::Moment nought, System system) {
  Chart chart;
  chart.description = "Temperature of the mash, planned and read";
  chart.x = {"From the first heat, as planned", "h", 0.0, {}};
  chart.left = temperature_axis(system);
  chart.plot_mm = 48.0;
  Series line{.label = "planned", .points = {}};
  for (const mash::CoursePoint& point : mash.course) {
    line.points.push_back({point.at.hours(), figure_of(point.temperature, system)});
  }
  chart.series = {std::move(line)};
  Marks marks;
  for (const std::size_t i : thinned(read.temperatures).kept) {
    const journal::MashPoint& point = read.temperatures[i];
    marks.points.push_back(
        {journal::since(point.told.at, nought).hours(), figure_of(point.temperature, system)});
  }
  chart.marks = {std::move(marks)};
  return draw(chart);
}

Drawing ferment_record(const plan::FermentPlan& ferment, const journal::FermentState& read,
                       System system) {
  Chart chart;
  chart.description = "Gravity and temperature of the ferment, planned and read";
  chart.x = {"From pitching", "d", 0.0, {}};
  chart.left = {"Gravity", "", {}, {}};
  chart.plot_mm = 48.0;
  Series gravity{.label = "gravity, planned", .points = {}};
  Series warmth{.label = "temperature, planned",
                .points = {},
                .stroke = Stroke::dash,
                .on_right_axis = true};
  for (const ferment::PacePoint& point : ferment.pace.course) {
    gravity.points.push_back({point.at.days(), point.gravity.ratio()});
    warmth.points.push_back({point.at.days(), figure_of(point.temperature, system)});
  }
  Marks gravities;
  Marks warmths{.points = {}, .sign = Sign::cross, .on_right_axis = true};
  const journal::Moment nought = read.pitch->told.at;
  gravities.points.push_back({0.0, read.pitch->gravity.ratio()});
  for (const std::size_t i : thinned(read.points).kept) {
    const journal::FermentPoint& point = read.points[i];
    const double days = journal::since(point.told.at, nought).days();
    if (days < 0.0) continue;
    if (point.gravity) gravities.points.push_back({days, point.gravity->ratio()});
    if (point.temperature) {
      warmths.points.push_back({days, figure_of(*point.temperature, system)});
    }
  }
  std::vector<double> all;
  for (const auto* points : {&warmth.points, &warmths.points}) {
    for (const Point& point : *points) all.push_back(point.y);
  }
  chart.right = temperature_axis(system, all);
  chart.series = {std::move(gravity), std::move(warmth)};
  chart.marks = {std::move(gravities), std::move(warmths)};
  return draw(chart);
}

Drawing run_record(const plan::RunPlan& planned,
                   const std::vector<const journal::RunState*>& runs,
                   const plan::SpiritPlan* cuts, System system) {
  Chart chart = run_chart(planned.run.points, system, ", planned", false);
  chart.description = "Strength at the spout and temperature in the head, planned and read";
  chart.plot_mm = 44.0;
  if (cuts != nullptr) {
    add_cut(chart, cuts->foreshots, "foreshots", system);
    add_cut(chart, cuts->heads, "heads", system);
    add_cut(chart, cuts->hearts, "hearts", system);
    add_cut(chart, cuts->tails, "tails", system);
  }
  for (std::size_t r = 0; r < runs.size(); ++r) {
    Marks strengths{.points = {}, .sign = signs.at(r % signs.size())};
    Marks heads{.points = {}, .sign = Sign::cross, .on_right_axis = true};
    const std::vector<std::optional<units::Volume>> come = collected_over(*runs[r]);
    for (const std::size_t i : thinned(*runs[r]).kept) {
      const still::Reading& reading = runs[r]->readings[i].reading;
      if (!come[i]) continue;
      const double x = figure_of(*come[i], system);
      if (const auto strength = true_spout(reading)) {
        strengths.points.push_back({x, figure_of(*strength, system)});
      }
      if (runs.size() == 1 && reading.head_temperature) {
        heads.points.push_back({x, figure_of(*reading.head_temperature, system)});
      }
    }
    chart.marks.push_back(std::move(strengths));
    if (!heads.points.empty()) chart.marks.push_back(std::move(heads));
  }
  return draw(chart);
}

}  // namespace lynearm::sheet
