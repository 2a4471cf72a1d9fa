// Strips and spirit runs as they were: what was charged, what was read, drawn on the planned
// curve, what came over.
#include <fmt/format.h>

#include <algorithm>

#include "sheet/record_parts.hpp"
#include "sheet/record_pictures.hpp"
#include "sheet/record_readings.hpp"

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

std::string charged_with(const Record& record, const RunState& run) {
  std::string text = parts_of(record, run.parts);
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

// All that came over, where nobody read it at the end: the jars, gauged each, else the latest
// that a reading or the jars' marks tell.
struct CameOver {
  std::optional<spirit::Lot> lot;  ///< of the jars, all gauged
  std::string words;               ///< empty where nothing tells it
};

CameOver came_over(const RunState& run, units::System system) {
  const auto every = [&](const auto& has) {
    return !run.jars.empty() && std::all_of(run.jars.begin(), run.jars.end(),
                                            [&](const auto& jar) { return has(jar.second); });
  };
  CameOver over;
  // Jars of a run that goes on are not yet all of it.
  const bool done = run.ended || run.allotted;
  if (done && every([](const journal::JarState& jar) { return jar.lot.has_value(); })) {
    spirit::Lot sum;
    for (const auto& [number, jar] : run.jars) sum = sum + *jar.lot;
    over.lot = sum;
    over.words = fmt::format("{}, by its jars", lot_words(sum, system));
    return over;
  }
  std::optional<units::Volume> most;
  const char* by = "last read";
  for (const journal::RunPoint& point : run.readings) {
    if (point.reading.collected) most = point.reading.collected;
  }
  if (every([](const journal::JarState& jar) { return jar.as_filled.has_value(); })) {
    units::Volume marks;
    for (const auto& [number, jar] : run.jars) marks += *jar.as_filled;
    if (!most || marks > *most) {
      most = marks;
      by = "by the jars' marks";
    }
  }
  if (most) {
    over.words = fmt::format("{}, {}{}", cell(*most, system), by, done ? "" : "; not ended");
  }
  return over;
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
        if (run.collected_read) return shown(*run.collected_read, system);
        const CameOver over = came_over(run, system);
        if (over.lot) return cell(spirit::volume(*over.lot), system) + ", by its jars";
        return over.words.empty() ? open : over.words;
      });
  put("their strength", cell(spirit::strength(one.collected), system),
      [&](const RunState& run) {
        const auto lot = run.collected ? run.collected : came_over(run, system).lot;
        return lot && !(run.collected_read && !run.collected)
                   ? cell(spirit::strength(*lot), system)
                   : open;
      });
  put("Left in the pot", cell(one.left_in_pot, system),
      [&](const RunState& run) { return run.left ? cell(*run.left, system) : open; });
  return table(strips);
}

Html strip_readings(const Record& record, const std::vector<const RunState*>& runs) {
  Html part;
  std::vector<Html> narrow;  // two of these stand beside each other
  Html below;
  const auto put_narrow = [&] {
    for (std::size_t i = 0; i < narrow.size(); i += 2) {
      part += i + 1 < narrow.size() ? beside(narrow[i], narrow[i + 1]) : narrow[i];
    }
    narrow.clear();
    part += below;
    below = {};
  };
  for (std::size_t i = 0; i < runs.size(); ++i) {
    RunReadings read = run_readings(record, *runs[i], record.planned.plan.strip.one, true);
    Html words;
    if (!read.besides.empty()) {
      words += small_print(fmt::format("Strip {} besides: {}.", i + 1, read.besides));
    }
    if (!read.thinned.empty()) {
      words += small_print(fmt::format("Strip {}. {}", i + 1, read.thinned));
    }
    if (!read.table.rows.empty()) {
      read.table.caption =
          fmt::format("Strip {}, read by {}", i + 1, by_whom(tellers(*runs[i])));
      if (read.wide) put_narrow();
      (read.wide ? part : narrow.emplace_back()) += table(read.table);
    }
    (read.wide ? part : below) += words;
  }
  put_narrow();
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
  } else if (const CameOver over = came_over(run, system); !over.words.empty()) {
    collected = over.words;
  }
  rows.push_back({"Came over in all", lot_words(one.collected, system), collected, end});
  rows.push_back({"Left in the pot", cell(one.left_in_pot, system),
                  run.left ? cell(*run.left, system) : open, end});
  return met_table("", rows);
}

// What spoke against these charges: a sheet that only tells how they went would hide it.
Html against_boiler(const Record& record, const std::vector<const RunState*>& runs) {
  if (!record.from.followed) return {};
  const auto& against = record.from.followed->against;
  Html part;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const auto found = against.find(runs[i]->told.entry);
    if (found == against.end()) continue;
    const std::string which = runs.size() > 1 ? fmt::format("Run {}. ", i + 1) : "";
    for (const std::string& why : found->second) {
      Writer out;
      out.open("div", {{"class", "caution"}, {"role", "note"}});
      out.open("p").element("strong", {}, "Against the boiler. ").text(which + why).close();
      out.close();
      part += out.finish();
    }
  }
  return part;
}

}  // namespace

Html record_strips(const Record& record) {
  const std::vector<const RunState*> runs = runs_of(record, RunKind::strip);
  Html part = heading(runs.size() > 1 ? "Strips" : "Strip");
  part += cautions_box({cautions::hot_pot, cautions::heat, cautions::outlet, cautions::vapour});
  part += against_boiler(record, runs);
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
  return part + strip_readings(record, runs) + told_besides(record, Stage::strip);
}

Html record_spirit(const Record& record) {
  const std::vector<const RunState*> runs = runs_of(record, RunKind::spirit);
  const plan::SpiritPlan& planned = record.planned.plan.spirit;
  Html part = heading(runs.size() > 1 ? "Spirit runs" : "Spirit run");
  part += cautions_box({cautions::hot_pot, cautions::heat, cautions::outlet, cautions::fire,
                        cautions::foreshots, cautions::blue_or_green});
  part += against_boiler(record, runs);
  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (runs.size() > 1) part += subheading(fmt::format("Run {} of {}", i + 1, runs.size()));
    part += spirit_facts(record, *runs[i]);
    const std::string in = charged_with(record, *runs[i]);
    if (!in.empty()) part += paragraph(fmt::format("Charged with {}.", in));
    if (planned.one.run.points.size() > 1) {
      part +=
          figure(run_record(planned.one, {runs[i]}, &planned, record.system),
                 "Lines and cuts: planned. Rings: true strength read at the spout; crosses: "
                 "head, read.");
    }
    RunReadings read = run_readings(record, *runs[i], planned.one, false);
    if (read.table.rows.empty()) continue;
    read.table.caption = fmt::format("Read by {}. Planned: at the spout when as much had come",
                                     by_whom(tellers(*runs[i])));
    part += table(read.table);
    if (!read.thinned.empty()) part += small_print(read.thinned);
  }
  return part + told_besides(record, Stage::spirit_run);
}

}  // namespace lynearm::sheet
