#include "sheet/batch_pictures.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "sheet/batch_words.hpp"
#include "sheet/run_chart.hpp"
#include "sheet/stream.hpp"

namespace lynearm::sheet {

using units::System;

namespace {

const char* words(mash::Phase phase) {
  switch (phase) {
    case mash::Phase::heating:
      return "heating";
    case mash::Phase::cooking:
      return "cooking";
    case mash::Phase::moving:
      return "moving";
    case mash::Phase::cooling:
      return "cooling";
    case mash::Phase::doughing_in:
      return "malts in";
    case mash::Phase::resting:
      return "rest";
    case mash::Phase::draining:
      return "draining";
  }
  return "";
}

std::vector<Range> phases(const mash::Course& course) {
  std::vector<Range> ranges;
  std::size_t begin = 0;
  for (std::size_t i = 1; i <= course.size(); ++i) {
    if (i < course.size() && course[i].phase == course[begin].phase) continue;
    const double from = course[begin].at.hours();
    const double to = course[i - 1].at.hours();
    if (to > from) ranges.push_back({from, to, words(course[begin].phase)});
    begin = i;
  }
  return ranges;
}

// The small losses of a stage as one, so that the picture stays readable: their sum is drawn,
// the ledger has each.
std::vector<plan::LedgerEntry> picture_entries(const plan::Ledger& ledger) {
  const units::Volume small = ledger.total(plan::Flow::in) * 0.012;
  const auto is_small = [small](const plan::LedgerEntry& entry) {
    return entry.flow == plan::Flow::lost && entry.pure_alcohol < small;
  };
  std::vector<plan::LedgerEntry> entries;
  for (const plan::LedgerEntry& entry : ledger.entries) {
    // Below a thousandth of a millilitre is rounding, and may be negative.
    if (entry.pure_alcohol < units::Volume::millilitres(0.001)) continue;
    const auto with = std::find_if(entries.begin(), entries.end(), [&](const auto& other) {
      return other.stage == entry.stage && is_small(other);
    });
    if (!is_small(entry) || with == entries.end()) {
      entries.push_back(entry);
      continue;
    }
    with->pure_alcohol += entry.pure_alcohol;
    const bool foreshots = with->name.starts_with("foreshots");
    with->name = foreshots ? "foreshots and small losses" : "small losses";
  }
  return entries;
}

Course course_of(const plan::LedgerEntry& entry) {
  switch (entry.flow) {
    case plan::Flow::in:
      return Course::in;
    case plan::Flow::lost:
      return Course::lost;
    case plan::Flow::kept:
      return Course::kept;
    case plan::Flow::out:
      break;
  }
  // Only what stands at the end leaves at the end; samples on the way rise out of the band.
  return entry.stage == "Bottle" ? Course::out : Course::kept;
}

}  // namespace

Drawing mash_picture(const plan::MashPlan& mash, System system) {
  Chart chart;
  chart.description = "Planned temperature of the mash over its hours";
  chart.x = {"From the first heat", "h", 0.0, {}};
  chart.left = temperature_axis(system);
  chart.plot_mm = 66.0;
  Series line{.label = "mash", .points = {}};
  for (const mash::CoursePoint& point : mash.course) {
    line.points.push_back({point.at.hours(), figure_of(point.temperature, system)});
  }
  chart.series = {std::move(line)};
  chart.ranges = phases(mash.course);
  return draw(chart);
}

Drawing ferment_picture(const plan::FermentPlan& ferment, System system) {
  Chart chart;
  chart.description = "Planned gravity and temperature of the ferment over its days";
  chart.x = {"From pitching", "d", 0.0, {}};
  chart.left = {"Gravity", "", {}, {}};
  chart.plot_mm = 48.0;
  Series gravity{.label = "gravity", .points = {}};
  Series warmth{
      .label = "temperature", .points = {}, .stroke = Stroke::dash, .on_right_axis = true};
  for (const ferment::PacePoint& point : ferment.pace.course) {
    gravity.points.push_back({point.at.days(), point.gravity.ratio()});
    warmth.points.push_back({point.at.days(), figure_of(point.temperature, system)});
  }
  std::vector<double> warmths;
  for (const Point& point : warmth.points) warmths.push_back(point.y);
  chart.right = temperature_axis(system, warmths);
  chart.series = {std::move(gravity), std::move(warmth)};
  return draw(chart);
}

Drawing strip_picture(const plan::StripPlan& strip, System system) {
  Chart chart = run_chart(strip.one.run.points, system);
  chart.description =
      "Planned strength and temperatures of one strip against what it has given";
  chart.plot_mm = 44.0;
  return draw(chart);
}

Drawing spirit_picture(const plan::SpiritPlan& spirit, System system) {
  Chart chart = run_chart(spirit.one.run.points, system);
  chart.description =
      "Planned strength and temperatures of the spirit run against what it has given, with its "
      "cuts";
  chart.plot_mm = 58.0;
  add_cut(chart, spirit.foreshots, "foreshots", system);
  add_cut(chart, spirit.heads, "heads", system);
  add_cut(chart, spirit.hearts, "hearts", system);
  add_cut(chart, spirit.tails, "tails", system);
  add_hearts_borders(chart, spirit.hearts, system);
  return draw(chart);
}

Drawing stream_picture(const plan::Ledger& ledger, System system) {
  std::vector<Flow> flows;
  for (const plan::LedgerEntry& entry : picture_entries(ledger)) {
    flows.push_back({entry.stage, entry.name, entry.pure_alcohol, course_of(entry)});
  }
  StreamOptions options;
  options.band_mm = 23.0;
  options.unit = volume_unit(system);
  if (system == System::us) options.one_unit = units::Volume::us_gallons(1.0);
  // The picture alone; the figures that come with a stream are for those who check it.
  const Stream stream = draw(flows, options);
  return {stream.svg, stream.width_mm, stream.height_mm, stream.labels};
}

}  // namespace lynearm::sheet
