#include "sheet/record_readings.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sheet/record_pictures.hpp"
#include "sheet/record_thin.hpp"

namespace lynearm::sheet {
namespace {

using journal::RunState;

// The figure of a cell without its unit, which stands in the head of its column.
std::string bare(const std::string& printed) {
  return printed.substr(0, printed.find(no_figure));
}

std::vector<Column> columns(bool lean, bool pot, units::System system) {
  const std::string degrees = tight(temperature_unit(system));
  std::vector<Column> made = {{"time", Align::left}};
  if (!lean) made.push_back({"shown", Align::right});
  made.push_back({"true, " + tight(strength_unit(system)), Align::right});
  made.push_back({"planned", Align::right});
  made.push_back({"head, " + degrees, Align::right});
  if (pot) made.push_back({"pot, " + degrees, Align::right});
  made.push_back({"come", Align::right});
  if (!lean) made.push_back({"", Align::left, 22});
  return made;
}

// What was told in words.
std::string said(const Record& record, const journal::RunPoint& point) {
  const units::System system = record.system;
  std::string text;
  const auto say = [&](const std::string& more) { text += (text.empty() ? "" : "; ") + more; };
  const still::Reading& one = point.reading;
  if (one.power) say("heat " + cell(*one.power, system));
  std::vector<std::string> coolant;
  if (one.coolant_in) coolant.push_back(cell(*one.coolant_in, system) + " in");
  if (one.coolant_out) coolant.push_back(cell(*one.coolant_out, system) + " out");
  if (one.coolant_flow) coolant.push_back(cell(*one.coolant_flow, system));
  if (!coolant.empty()) say(fmt::format("coolant {}", fmt::join(coolant, ", ")));
  if (one.event) say(*one.event == still::Event::stopped ? "heat off" : "heat on again");
  if (!one.note.empty()) say(one.note);
  if (point.told.corrections > 0) say("corrected");
  if (const std::string doubt = not_believed(record, point.told.entry); !doubt.empty()) {
    say(doubt);
  }
  return text;
}

std::string shown(const still::Reading& one, units::System system) {
  if (!one.spout) return std::string(no_figure);
  std::string text = spirit::print(*one.spout);
  if (one.spout_temperature) text += " at " + units::print(*one.spout_temperature, system);
  return tight(text);
}

// The column of what had come keeps one unit: that of the most.
units::Volume most_of(const RunState& run, const plan::RunPlan& planned) {
  units::Volume most;
  if (!planned.run.points.empty()) most = planned.run.last().collected;
  for (const journal::RunPoint& point : run.readings) {
    if (point.reading.collected) most = std::max(most, *point.reading.collected);
  }
  return most;
}

}  // namespace

RunReadings run_readings(const Record& record, const RunState& run,
                         const plan::RunPlan& planned, bool lean) {
  const units::System system = record.system;
  const std::string none(no_figure);
  const bool pot = !lean || std::any_of(run.readings.begin(), run.readings.end(),
                                        [](const journal::RunPoint& point) {
                                          return point.reading.pot_temperature.has_value();
                                        });
  RunReadings read;
  read.wide = !lean || pot;
  read.table.columns = columns(lean, pot, system);
  const Thinned thin = thinned(run);
  read.thinned = thin_words(thin);
  const std::vector<std::optional<units::Volume>> come = collected_over(run);
  const units::Volume most = most_of(run, planned);
  const bool has_course = planned.run.points.size() > 1;
  const auto temperature = [&](const std::optional<units::Temperature>& t) {
    return t ? bare(cell(*t, system)) : none;
  };
  std::string day_before;
  std::string besides_day;
  const auto time = [&](journal::Moment at, std::string& before) {
    const std::string today = day(record, at);
    std::string text = today == before ? hour(record, at) : when(record, at);
    before = today;
    return text;
  };
  for (const std::size_t i : thin.kept) {
    const journal::RunPoint& point = run.readings[i];
    const still::Reading& one = point.reading;
    const std::string words = said(record, point);
    const bool figures =
        one.spout || one.head_temperature || one.pot_temperature || one.collected.has_value();
    if (lean && !words.empty()) {
      read.besides += fmt::format("{}{} {}", read.besides.empty() ? "" : "; ",
                                  time(point.told.at, besides_day), words);
    }
    if (!figures && (lean || words.empty())) continue;
    const auto strength = true_spout(one);
    std::string expected = none;
    if (strength && come[i] && has_course && *come[i] >= planned.run.first().collected &&
        *come[i] <= planned.run.last().collected) {
      expected = bare(cell(still::point_at_volume(planned.run, *come[i]).spout, system));
    }
    std::vector<std::string> row = {time(point.told.at, day_before)};
    if (!lean) row.push_back(shown(one, system));
    row.push_back(strength ? bare(cell(*strength, system)) : none);
    row.push_back(std::move(expected));
    row.push_back(temperature(one.head_temperature));
    if (pot) row.push_back(temperature(one.pot_temperature));
    row.push_back(one.collected ? in_one_unit(*one.collected, most, system) : none);
    if (!lean) row.push_back(words.empty() ? none : words);
    read.table.rows.push_back(std::move(row));
  }
  return read;
}

std::string power_of(const RunState& run, units::System system) {
  constexpr std::size_t enough = 6;
  std::vector<std::string> powers;
  if (run.power) powers.push_back(cell(*run.power, system));
  std::size_t more = 0;
  std::string last = powers.empty() ? std::string{} : powers.back();
  for (const journal::RunPoint& point : run.readings) {
    if (!point.reading.power) continue;
    std::string now = cell(*point.reading.power, system);
    if (now == last) continue;
    last = now;
    if (powers.size() < enough) {
      powers.push_back(std::move(now));
    } else {
      ++more;
    }
  }
  std::string text = fmt::format("{}", fmt::join(powers, ", then "));
  if (more > 0) text += fmt::format(", and {} more", more);
  return text;
}

}  // namespace lynearm::sheet
