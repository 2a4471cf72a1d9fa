// Bill and mash as they were: what went in, the temperatures on the planned course, what ran
// off.
#include <fmt/format.h>

#include <algorithm>

#include "mash/drain.hpp"
#include "sheet/record_parts.hpp"
#include "sheet/record_pictures.hpp"
#include "sheet/record_thin.hpp"
#include "wort/gravity.hpp"

namespace lynearm::sheet {
namespace {

using journal::Stage;

Html bill(const Record& record) {
  const plan::BillPlan& planned = record.planned.plan.mash.bill;
  std::string lines;
  for (const auto& line : planned.lines) {
    lines += fmt::format("{}{} {}", lines.empty() ? "" : "; ", line.ingredient.name,
                         cell(line.mass, record.system));
  }
  return heading("Mash bill") +
         paragraph(fmt::format("Planned: {}. Together {}, {} of extract in it.", lines,
                               cell(planned.potential.mass, record.system),
                               cell(planned.potential.extract, record.system))) +
         told_besides(record, Stage::mash_bill);
}

// When the planned course begins: it is laid where the malts went in; else its rest where the
// first temperature was read.
std::optional<journal::Moment> nought_of(const Record& record, const plan::MashPlan& mash) {
  const auto begins = [&](mash::Phase phase) {
    return std::find_if(mash.course.begin(), mash.course.end(),
                        [&](const mash::CoursePoint& point) { return point.phase == phase; });
  };
  const auto back = [](journal::Moment at, units::Duration by) {
    return journal::Moment{at.milliseconds - static_cast<std::int64_t>(by.seconds() * 1e3)};
  };
  const auto rest = begins(mash::Phase::resting);
  if (rest == mash.course.end()) return std::nullopt;
  for (const journal::StepState& step : record.batch.steps) {
    if (step.stage == Stage::mash && step.done && step.step.starts_with("Stir in the malts")) {
      return back(step.told.at, rest->at);
    }
  }
  if (record.batch.mash.temperatures.empty()) return std::nullopt;
  return back(record.batch.mash.temperatures.front().told.at, rest->at);
}

Html readings(const Record& record) {
  const journal::MashState& mash = record.batch.mash;
  struct Row {
    journal::Moment at;
    std::vector<std::string> cells;
  };
  std::vector<Row> rows;
  const auto put = [&](const journal::Told& told, std::string what) {
    if (told.corrections > 0) what += " (corrected)";
    rows.push_back({told.at, {when(record, told.at), std::move(what), told.who}});
  };
  const Thinned thin = thinned(mash.temperatures);
  for (const std::size_t i : thin.kept) {
    const journal::MashPoint& point = mash.temperatures[i];
    put(point.told, cell(point.temperature, record.system));
  }
  for (const journal::MashWaterState& water : mash.waters) {
    put(water.told, fmt::format("{} of water of {} in", cell(water.volume, record.system),
                                cell(water.temperature, record.system)));
  }
  for (const journal::MashCheckState& check : mash.checks) {
    std::string what;
    if (check.iodine) what = words(*check.iodine);
    if (check.gravity) {
      what +=
          fmt::format("{}liquor {}", what.empty() ? "" : ", ", gravity_cell(*check.gravity));
    }
    put(check.told, what);
  }
  std::stable_sort(rows.begin(), rows.end(),
                   [](const Row& a, const Row& b) { return a.at < b.at; });
  Table read{
      .caption = "Temperatures, water, checks",
      .columns = {{"When", Align::left, 28}, {"what", Align::left}, {"by", Align::left, 31}},
      .rows = {}};
  for (Row& row : rows) read.rows.push_back(std::move(row.cells));
  const std::string not_all = thin_words(thin);
  return in_halves(std::move(read)) + (not_all.empty() ? Html{} : small_print(not_all));
}

// The rest, by the first temperature that was read with the malts in, and by the last of its
// last quarter; what was read after it, or of the wort, is none of its end.
std::vector<Met> rest_rows(const Record& record, const plan::MashPlan& planned) {
  std::vector<Met> rows = {
      {"Rest", cell(record.planned.recipe.mash.rest_temperature, record.system),
       open_cell(record)},
      {"End of the rest", cell(planned.rested.end, record.system), open_cell(record)}};
  const auto stirred = std::find_if(
      record.batch.steps.begin(), record.batch.steps.end(), [](const journal::StepState& step) {
        return step.stage == Stage::mash && step.step.starts_with("Stir in the malts");
      });
  if (stirred == record.batch.steps.end()) return {};
  rows.insert(rows.begin(), {"Malts in, planned at", cell(planned.dough_in, record.system),
                             std::string(no_figure), told(record, stirred->told)});
  const units::Duration rest = record.planned.recipe.mash.rest_time;
  const journal::MashPoint* first = nullptr;
  const journal::MashPoint* last = nullptr;
  for (const journal::MashPoint& point : record.batch.mash.temperatures) {
    const units::Duration in = since(point.told.at, stirred->told.at);
    const auto& worts = record.batch.mash.worts;
    const bool drawn = !worts.empty() && worts.front().told.at <= point.told.at;
    if (in < units::Duration{} || in > rest + units::Duration::minutes(30.0) || drawn) continue;
    if (first == nullptr) first = &point;
    if (in >= rest * 0.75) last = &point;
  }
  if (first != nullptr) {
    rows[1].measured = cell(first->temperature, record.system);
    rows[1].when = told(record, first->told);
  }
  if (last != nullptr) {
    rows[2].measured = cell(last->temperature, record.system);
    rows[2].when = told(record, last->told);
  }
  return rows;
}

// What a run-off is called in the journal.
const journal::WortState* drawn(const Record& record, std::string_view from) {
  const auto& worts = record.batch.mash.worts;
  const auto at = std::find_if(worts.begin(), worts.end(),
                               [&](const auto& wort) { return wort.from == from; });
  return at == worts.end() ? nullptr : &*at;
}

Html worts(const Record& record) {
  const units::System system = record.system;
  Table run_offs{.caption = "Worts, at 20 °C",
                 .columns = {{"", Align::left},
                             {"planned", Align::right},
                             {"gravity", Align::right},
                             {"measured", Align::right},
                             {"gravity", Align::right},
                             {"extract", Align::right},
                             {"when, by whom", Align::left, 30}},
                 .rows = {}};
  std::vector<const journal::WortState*> left;
  for (const journal::WortState& wort : record.batch.mash.worts) left.push_back(&wort);
  const auto put = [&](std::string name, std::string volume, std::string gravity,
                       const journal::WortState* wort) {
    const std::string open = open_cell(record);
    run_offs.rows.push_back(
        {std::move(name), std::move(volume), std::move(gravity),
         wort == nullptr ? open : cell(wort->volume, system),
         wort == nullptr ? open : gravity_cell(wort->gravity),
         wort == nullptr ? open : cell(wort->extract, system),
         wort == nullptr ? std::string(no_figure) : told(record, wort->told)});
    left.erase(std::remove(left.begin(), left.end(), wort), left.end());
  };
  const auto& planned = record.planned.plan.mash;
  if (planned.mash && planned.mash->drained) {
    int sparge = 0;
    for (const mash::RunOff& run_off : planned.mash->drained->run_offs) {
      std::string name = "squeeze";
      if (run_off.kind == mash::RunOffKind::first_runnings) name = "first runnings";
      if (run_off.kind == mash::RunOffKind::sparge) name = fmt::format("sparge {}", ++sparge);
      const journal::WortState* wort = drawn(record, name);
      // A squeeze mostly runs into the wort before it: no blank is owed for it.
      if (run_off.kind == mash::RunOffKind::squeeze && wort == nullptr) continue;
      put(name, cell(run_off.volume, system),
          gravity_cell(wort::specific_gravity(run_off.wort)), wort);
    }
  }
  const std::string none(no_figure);
  while (!left.empty()) put(left.front()->from, none, none, left.front());
  if (run_offs.rows.empty()) return {};
  if (record.batch.mash.worts.size() > 1) {
    run_offs.rows.push_back(
        {"together", none, none, none, none, cell(record.batch.mash.extract(), system), none});
  }
  return table(run_offs);
}

}  // namespace

Html record_mash(const Record& record) {
  const journal::MashState& mash = record.batch.mash;
  const auto& planned = record.planned.plan.mash.mash;
  Html part = bill(record);
  if (planned) {
    part += heading("Mash") + cautions_box({cautions::hot_porridge});
    part += met_table("", rest_rows(record, *planned)) + readings(record);
    const std::optional<journal::Moment> nought = nought_of(record, *planned);
    if (planned->course.size() > 1 && nought && !mash.temperatures.empty()) {
      part += figure(mash_record(*planned, mash, *nought, record.system),
                     fmt::format("Planned course, laid so that the malts go in when they did; "
                                 "rings: read. The course begins {}.",
                                 when(record, *nought)));
    }
  } else {
    part += heading("Wort");
  }
  if (record.planned.plan.mash.sugar) part += cautions_box({cautions::syrup});
  return part + additions_of(record, Stage::mash) + worts(record) +
         notes_of(record, Stage::mash);
}

}  // namespace lynearm::sheet
