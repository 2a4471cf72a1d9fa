// Strips and spirit runs as they were: what was charged, what was read, drawn on the planned
// curve, what came over.
#include <fmt/format.h>

#include <algorithm>

#include "sheet/record_parts.hpp"
#include "sheet/record_pictures.hpp"

namespace lynearm::sheet {
namespace {

using journal::RunKind;
using journal::RunState;
using journal::Stage;

constexpr std::size_t runs_in_a_table = 4;

std::vector<const RunState*> runs_of(const Record& record, RunKind kind) {
  std::vector<const RunState*> runs;
  for (const RunState& run : record.batch.runs) {
    if (run.kind == kind) runs.push_back(&run);
  }
  return runs;
}

std::string power_of(const RunState& run, units::System system) {
  std::string text = run.power ? cell(*run.power, system) : std::string{};
  for (const journal::RunPoint& point : run.readings) {
    if (!point.reading.power) continue;
    text +=
        fmt::format("{}{}", text.empty() ? "" : ", then ", cell(*point.reading.power, system));
  }
  return text;
}

std::string parts_of(const Record& record, const RunState& run) {
  std::string text;
  for (const journal::LotPart& part : run.parts) {
    text += fmt::format("{}{} of {}", text.empty() ? "" : "; ",
                        cell(part.volume, record.system), label_of(record, part.lot));
  }
  if (run.wash) {
    text += fmt::format("{}{} of the wash", text.empty() ? "" : "; ",
                        cell(*run.wash, record.system));
  }
  return text;
}

std::string standing_of(const Record& record, const RunState& run) {
  if (run.ended) return told(record, *run.ended);
  return run.standing == journal::RunStanding::stopped ? "heat off, not ended" : "running";
}

std::vector<const journal::Told*> tellers(const RunState& run) {
  std::vector<const journal::Told*> all = {&run.told};
  for (const journal::RunPoint& point : run.readings) all.push_back(&point.told);
  if (run.ended) all.push_back(&*run.ended);
  return all;
}

// The figure of a cell without its unit, which stands in the head of its column.
std::string bare(const std::string& printed) {
  return printed.substr(0, printed.find(no_figure));
}

// What was read in a run, a row each. `lean` leaves out what a strip seldom has.
Table readings(const Record& record, const RunState& run, const plan::RunPlan& planned,
               bool lean) {
  const units::System system = record.system;
  const std::string none(no_figure);
  Table read;
  read.columns = {{"time", Align::left}};
  if (!lean) read.columns.push_back({"shown", Align::right});
  const std::string strength_in = tight(strength_unit(system));
  const std::string degrees = tight(temperature_unit(system));
  read.columns.push_back({"true, " + strength_in, Align::right});
  read.columns.push_back({"planned", Align::right});
  read.columns.push_back({"head, " + degrees, Align::right});
  if (!lean) read.columns.push_back({"pot, " + degrees, Align::right});
  read.columns.push_back({"come", Align::right});
  if (!lean) read.columns.push_back({"", Align::left, 22});
  const units::Volume most = planned.run.last().collected;
  std::string day_before;
  for (std::size_t i = 0; i < run.readings.size(); ++i) {
    const journal::RunPoint& point = run.readings[i];
    const still::Reading& one = point.reading;
    const bool empty = !one.spout && !one.head_temperature && !one.pot_temperature &&
                       !one.collected && !one.event && one.note.empty() && !one.power;
    if (empty || (lean && !one.spout && !one.head_temperature && !one.collected)) continue;
    const auto strength = true_spout(one);
    const std::optional<units::Volume> over = collected_at(run, i);
    std::string expected = none;
    if (strength && over && *over >= planned.run.first().collected && *over <= most) {
      expected = bare(cell(still::point_at_volume(planned.run, *over).spout, system));
    }
    const auto temperature = [&](const std::optional<units::Temperature>& t) {
      return t ? bare(cell(*t, system)) : none;
    };
    const std::string today = day(record, point.told.at);
    std::vector<std::string> row = {i == 0 || today != day_before
                                        ? when(record, point.told.at)
                                        : hour(record, point.told.at)};
    day_before = today;
    if (!lean) {
      row.push_back(!one.spout
                        ? none
                        : tight(fmt::format("{}{}{}", spirit::print(*one.spout),
                                            one.spout_temperature ? " at " : "",
                                            one.spout_temperature
                                                ? units::print(*one.spout_temperature, system)
                                                : std::string{})));
    }
    row.push_back(strength ? bare(cell(*strength, system)) : none);
    row.push_back(std::move(expected));
    row.push_back(temperature(one.head_temperature));
    if (!lean) row.push_back(temperature(one.pot_temperature));
    row.push_back(one.collected ? in_one_unit(*one.collected, most, system) : none);
    if (!lean) {
      std::string said;
      const auto say = [&](const std::string& more) {
        said += (said.empty() ? "" : "; ") + more;
      };
      if (one.power) say("heat " + cell(*one.power, system));
      if (one.event) say(*one.event == still::Event::stopped ? "heat off" : "heat on again");
      if (!one.note.empty()) say(one.note);
      if (point.told.corrections > 0) say("corrected");
      row.push_back(said.empty() ? none : said);
    }
    read.rows.push_back(std::move(row));
  }
  return read;
}

Html strip_table(const Record& record, const std::vector<const RunState*>& runs,
                 std::size_t first, std::size_t end) {
  const plan::RunPlan& one = record.planned.plan.strip.one;
  const units::System system = record.system;
  const std::string open = open_cell(record);
  const std::string none(no_figure);
  Table strips{
      .caption = "", .columns = {{"", Align::left}, {"planned", Align::right}}, .rows = {}};
  for (std::size_t i = first; i < end; ++i) {
    strips.columns.push_back({fmt::format("strip {}", i + 1), Align::right});
  }
  const auto put = [&](const char* name, std::string planned, const auto& of_run) {
    std::vector<std::string> row = {name, std::move(planned)};
    for (std::size_t i = first; i < end; ++i) row.push_back(of_run(*runs[i]));
    strips.rows.push_back(std::move(row));
  };
  put("Heat on", none, [&](const RunState& run) { return when(record, run.told.at); });
  put("Charge, at 20 °C", cell(one.charge_volume, system), [&](const RunState& run) {
    return run.charge_known ? cell(run.charge_volume, system) : open;
  });
  put("its strength", cell(one.charge_strength, system, 2), [&](const RunState& run) {
    return run.charge_known ? cell(spirit::strength(run.charge), system, 2) : open;
  });
  put("Power", cell(one.power, system), [&](const RunState& run) {
    const std::string power = power_of(run, system);
    return power.empty() ? open : power;
  });
  put("Ended", none,
      [&](const RunState& run) { return run.ended ? when(record, run.ended->at) : open; });
  put("Cold to end", cell(one.length, system), [&](const RunState& run) {
    return run.ended ? cell(journal::since(run.ended->at, run.told.at), system) : open;
  });
  put("Low wines, at 20 °C", cell(spirit::volume(one.collected), system),
      [&](const RunState& run) {
        if (run.collected) return cell(spirit::volume(*run.collected), system);
        return run.collected_read ? shown(*run.collected_read, system) : open;
      });
  put("their strength", cell(spirit::strength(one.collected), system),
      [&](const RunState& run) {
        return run.collected ? cell(spirit::strength(*run.collected), system) : open;
      });
  put("Left in the pot", cell(one.left_in_pot, system),
      [&](const RunState& run) { return run.left ? cell(*run.left, system) : open; });
  return table(strips);
}

Html strip_readings(const Record& record, const std::vector<const RunState*>& runs) {
  std::vector<Html> blocks;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    Table read = readings(record, *runs[i], record.planned.plan.strip.one, true);
    if (read.rows.empty()) continue;
    read.caption = fmt::format("Strip {}, read by {}", i + 1, by_whom(tellers(*runs[i])));
    blocks.push_back(table(read));
  }
  Html part;
  for (std::size_t i = 0; i < blocks.size(); i += 2) {
    part += i + 1 < blocks.size() ? beside(blocks[i], blocks[i + 1]) : blocks[i];
  }
  return part;
}

std::string which_signs(std::size_t count) {
  std::string text;
  for (std::size_t i = 0; i < count; ++i) {
    text += fmt::format("{}{} strip {}", i == 0 ? "" : ", ", sign_words(i), i + 1);
  }
  return text;
}

Html spirit_facts(const Record& record, const RunState& run) {
  const plan::SpiritPlan& planned = record.planned.plan.spirit;
  const plan::RunPlan& one = planned.one;
  const units::System system = record.system;
  const std::string open = open_cell(record);
  const std::string begun = told(record, run.told);
  std::vector<Met> rows = {
      {"Charge, at 20 °C", cell(one.charge_volume, system),
       run.charge_known ? cell(run.charge_volume, system) : open, begun},
      {"its strength", cell(one.charge_strength, system),
       run.charge_known ? cell(spirit::strength(run.charge), system) : open, begun},
      {"Power, once it runs", cell(one.power, system), power_of(run, system), begun}};
  if (rows.back().measured.empty()) rows.back().measured = open;
  const std::string end = standing_of(record, run);
  rows.push_back({"Cold to end", cell(one.length, system),
                  run.ended ? cell(journal::since(run.ended->at, run.told.at), system) : open,
                  end});
  std::string collected = open;
  if (run.collected) {
    collected = lot_words(*run.collected, system);
  } else if (run.collected_read) {
    collected = shown(*run.collected_read, system);
  }
  rows.push_back({"Came over in all", lot_words(one.collected, system), collected, end});
  rows.push_back({"Left in the pot", cell(one.left_in_pot, system),
                  run.left ? cell(*run.left, system) : open, end});
  return met_table("", rows);
}

}  // namespace

Html record_strips(const Record& record) {
  const std::vector<const RunState*> runs = runs_of(record, RunKind::strip);
  Html part = heading(runs.size() > 1 ? "Strips" : "Strip");
  part += cautions_box({cautions::hot_pot, cautions::heat, cautions::outlet, cautions::vapour});
  for (std::size_t i = 0; i < runs.size(); i += runs_in_a_table) {
    part += strip_table(record, runs, i, std::min(i + runs_in_a_table, runs.size()));
  }
  const plan::RunPlan& one = record.planned.plan.strip.one;
  const std::vector<const RunState*> first(
      runs.begin(),
      runs.begin() + static_cast<std::ptrdiff_t>(std::min(runs.size(), runs_in_a_table)));
  if (one.run.points.size() > 1) {
    part += figure(
        run_record(one, first, nullptr, record.system),
        fmt::format("Lines: one strip, planned. At the spout, true strength: {}.{}",
                    which_signs(first.size()), first.size() == 1 ? " Crosses: head." : ""));
  }
  return part + strip_readings(record, runs) + additions_of(record, Stage::strip) +
         notes_of(record, Stage::strip);
}

Html record_spirit(const Record& record) {
  const std::vector<const RunState*> runs = runs_of(record, RunKind::spirit);
  const plan::SpiritPlan& planned = record.planned.plan.spirit;
  Html part = heading(runs.size() > 1 ? "Spirit runs" : "Spirit run");
  part += cautions_box({cautions::hot_pot, cautions::heat, cautions::outlet, cautions::fire,
                        cautions::foreshots, cautions::blue_or_green});
  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (runs.size() > 1) part += subheading(fmt::format("Run {} of {}", i + 1, runs.size()));
    part += spirit_facts(record, *runs[i]);
    const std::string in = parts_of(record, *runs[i]);
    if (!in.empty()) part += paragraph(fmt::format("Charged with {}.", in));
    if (planned.one.run.points.size() > 1) {
      part +=
          figure(run_record(planned.one, {runs[i]}, &planned, record.system),
                 "Lines and cuts: planned. Rings: true strength read at the spout; crosses: "
                 "head, read.");
    }
    Table read = readings(record, *runs[i], planned.one, false);
    if (read.rows.empty()) continue;
    read.caption = fmt::format("Read by {}. Planned: at the spout when as much had come",
                               by_whom(tellers(*runs[i])));
    part += table(read);
  }
  return part + additions_of(record, Stage::spirit_run) + notes_of(record, Stage::spirit_run);
}

}  // namespace lynearm::sheet
