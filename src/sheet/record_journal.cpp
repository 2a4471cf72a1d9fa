// The steps of the days as they were marked, what was corrected, and entries that nobody
// understood: nothing that was told is passed over.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "sheet/record_flow.hpp"
#include "sheet/record_parts.hpp"
#include "units/restate.hpp"

namespace lynearm::sheet {
namespace {

// When the plan has a step, by its own sentence.
std::string planned_at(const Record& record, const std::string& step) {
  const auto& steps = record.planned.plan.timeline.steps;
  const auto at = std::find_if(steps.begin(), steps.end(),
                               [&](const plan::Step& one) { return one.what == step; });
  return at == steps.end() ? std::string(no_figure) : tight(plan::clock(at->start));
}

// Often the time alone was wrong. Seconds only where the minute would look the same.
std::pair<std::string, std::string> both_times(const Record& record, journal::Moment first,
                                               journal::Moment then) {
  std::pair<std::string, std::string> fine{when_to_the_second(record, first),
                                           when_to_the_second(record, then)};
  const std::pair<std::string, std::string> plain{when(record, first), when(record, then)};
  return plain.first == plain.second && fine.first != fine.second ? fine : plain;
}

struct Row {
  journal::Moment at;
  std::vector<std::string> cells;
};

}  // namespace

Html record_steps(const Record& record) {
  std::vector<Row> rows;
  const auto put = [&](const journal::Told& told, std::string what, std::string planned) {
    rows.push_back({told.at,
                    {when(record, told.at), std::move(what), std::move(planned),
                     told.who.empty() ? std::string(no_figure) : told.who}});
  };
  const std::string none(no_figure);
  const journal::BatchState& batch = record.batch;
  if (batch.begun) put(*batch.begun, "Batch begun", none);
  if (batch.plan) {
    put(batch.plan->told, batch.plan->earlier > 0 ? "Planned anew" : "Planned", none);
  }
  for (const journal::StepState& step : batch.steps) {
    std::string what = units::restated(step.step, record.system);
    if (!step.done) what += " (begun, not done)";
    put(step.told, std::move(what), planned_at(record, step.step));
  }
  for (const journal::WortState& wort : batch.mash.worts) {
    put(wort.told, fmt::format("Wort drawn: {}", wort.from), none);
  }
  if (batch.ferment.pitch) put(batch.ferment.pitch->told, "Pitched", none);
  if (batch.ferment.racked) put(batch.ferment.racked->told, "Racked", none);
  for (const journal::RunState& run : batch.runs) {
    const char* what = run.kind == journal::RunKind::strip ? "Strip" : "Spirit run";
    put(run.told, fmt::format("{}: heat on", what), none);
    for (const journal::RunPoint& point : run.readings) {
      if (!point.reading.event) continue;
      put(point.told,
          fmt::format("{}: heat {}", what,
                      *point.reading.event == still::Event::stopped ? "off" : "on again"),
          none);
    }
    if (run.ended) put(*run.ended, fmt::format("{}: ended", what), none);
    if (run.allotted) put(*run.allotted, "The cut made", none);
  }
  for (const journal::LotState& lot : record.from.house.lots) {
    if (lot.batch != batch.id) continue;
    if (lot.name.kind == journal::LotKind::spirit) put(lot.told, "Made: " + lot.label, none);
    if (lot.bottles) put(lot.told, "Bottled: " + lot.label, none);
  }
  for (const Topping& one : toppings(record)) {
    std::string what = "Topped up: " + one.lot->label;
    const std::string much = in_the_glass(spirit::volume(one.use->lot * -1.0), record.system);
    what += one.from == nullptr ? fmt::format(", with {}", much)
                                : fmt::format(", with {} of {}", much, one.from->label);
    put(one.use->told, std::move(what), none);
  }
  for (const auto& [standing, body] : all_of<journal::Labelled>(record)) {
    if (journal::lot_named(record.from.house, body->lot) == nullptr) continue;
    std::string what = "Labelled: " + label_of(record, body->lot);
    if (!body->name.empty()) what += fmt::format(", as {}", body->name);
    what += fmt::format(", {} stated", cell(body->strength, record.system));
    if (!body->names_class.empty()) what += ", " + body->names_class;
    put(told_of(*standing), std::move(what), none);
  }
  for (const journal::UpheldState& one : batch.upheld) {
    std::string what =
        "Upheld, as it was told: " + units::restated(one.upheld.asked, record.system);
    if (!one.upheld.reason.empty()) what += " " + one.upheld.reason;
    put(one.told, std::move(what), none);
  }
  for (const journal::AirState& air : batch.airs) {
    put(air.told,
        air.air.pressure
            ? fmt::format("Air at the still {}", cell(*air.air.pressure, record.system))
            : fmt::format("Water boiled at {}", cell(*air.air.boiling_water, record.system)),
        none);
  }
  // The copper is the house's: whoever told it, and of whichever batch.
  for (const journal::CleaningState& one : record.from.house.cleanings) {
    if (one.told.at < batch.first || one.told.at > batch.last) continue;
    std::string what = "Copper cleaned: " + one.cleaned.what;
    if (!one.cleaned.with.empty()) what += ", with " + one.cleaned.with;
    if (!one.cleaned.remark.empty()) what += "; " + one.cleaned.remark;
    put(one.told, std::move(what), none);
  }
  if (batch.closed) put(*batch.closed, "Batch closed", none);
  std::stable_sort(rows.begin(), rows.end(),
                   [](const Row& a, const Row& b) { return a.at < b.at; });
  Table days{.caption = "",
             .columns = {{"When", Align::left, 14},
                         {"what", Align::left},
                         {"planned", Align::right, 15},
                         {"by", Align::left, 20}},
             .rows = {}};
  for (Row& row : rows) days.rows.push_back(std::move(row.cells));
  return heading("What was done, and when") + table(days);
}

Html record_corrections(const Record& record) {
  std::map<journal::Id, const journal::Entry*> by_id;
  for (const journal::Entry& entry : record.from.entries) by_id.emplace(entry.id, &entry);
  std::vector<const journal::Entry*> corrections;
  for (const auto& [id, entry] : by_id) {
    if (entry->corrects) corrections.push_back(entry);
  }
  const auto idle = [&](const journal::Id& id) {
    return std::any_of(record.standings.idle.begin(), record.standings.idle.end(),
                       [&](const journal::Idle& one) { return one.id == id; });
  };
  Table changes{.caption = "",
                .columns = {{"First told", Align::left, 36},
                            {"then", Align::left, 40},
                            {"corrected", Align::left}},
                .rows = {}};
  for (const journal::Entry* entry : corrections) {
    const auto of = by_id.find(*entry->corrects);
    std::string first = "an entry that is not here";
    std::string at;
    std::string was_at;
    if (of != by_id.end()) {
      const journal::Entry& was = *of->second;
      std::tie(was_at, at) =
          both_times(record, journal::happened(was), journal::happened(*entry));
      first = fmt::format("{} ({}{}{})", in_words(was, record.system), was_at,
                          was.who.empty() ? "" : ", ", was.who);
    }
    std::string then;
    if (const auto* struck = std::get_if<journal::Struck>(&entry->body)) {
      then = struck->reason.empty() ? std::string("struck out")
                                    : fmt::format("struck out: {}", struck->reason);
    } else {
      then = in_words(*entry, record.system);
      if (at != was_at) then += fmt::format(" ({})", at);
    }
    if (idle(entry->id)) then += " (without effect)";
    std::string made =
        when(record, journal::Moment{entry->id.made().milliseconds - entry->clock_ahead_ms});
    if (!entry->who.empty()) made += ", " + entry->who;
    changes.rows.push_back({std::move(first), std::move(then), std::move(made)});
  }
  Html part;
  if (!changes.rows.empty()) {
    part += heading("Corrected") +
            small_print(
                "Nothing is taken out of a journal: what was told first stands here, and "
                "counts no more.") +
            table(changes);
  }
  // An entry as it stands, a correction by itself.
  for (const journal::Standing& one : record.standings.entries) by_id[one.id] = one.said;
  const auto asked = [&](const journal::Puzzle& puzzle) {
    const auto at = by_id.find(puzzle.entry);
    const std::string why = units::restated(puzzle.why, record.system);
    if (at == by_id.end()) return paragraph(why);
    return paragraph(fmt::format("{} ({}): {}", in_words(*at->second, record.system),
                                 when(record, journal::happened(*at->second)), why));
  };
  const std::vector<journal::Puzzle> all = asked_of(record);
  // The fold's own stand first.
  const auto amounts = std::find_if(all.begin(), all.end(),
                                    [](const journal::Puzzle& one) { return one.counts; });
  if (amounts != all.begin()) part += subheading("Told, and without effect");
  for (auto one = all.begin(); one != amounts; ++one) part += asked(*one);
  if (amounts != all.end()) {
    part += subheading("Told, and cannot be so") +
            small_print("These count as they were told, here and in the ledger.");
  }
  for (auto one = amounts; one != all.end(); ++one) part += asked(*one);
  return part;
}

}  // namespace lynearm::sheet
