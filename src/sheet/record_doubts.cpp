// Readings that are kept and not believed: when and by whom they were told, what was read, what
// the others of their run or ferment say. They count as told in every other table of the
// record; what is not believed is reckoned by those who follow the run, and the page says so.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "sheet/record_parts.hpp"

namespace lynearm::sheet {
namespace {

using journal::RunKind;
using journal::RunState;

// "Spirit run", "Strip 2 of 4": the run that an entry was told of.
std::string run_of(const Record& record, const journal::Id& entry) {
  const auto told_of_it = [&](const RunState& run) {
    const auto reads = [&](const journal::RunPoint& point) {
      return point.told.entry == entry;
    };
    const auto fills = [&](const auto& jar) {
      return jar.second.filled && jar.second.filled->entry == entry;
    };
    return std::any_of(run.readings.begin(), run.readings.end(), reads) ||
           std::any_of(run.jars.begin(), run.jars.end(), fills);
  };
  std::array<int, 2> of_kind{};
  int number = 0;
  RunKind kind = RunKind::spirit;
  for (const RunState& run : record.batch.runs) {
    ++of_kind[static_cast<std::size_t>(run.kind)];
    if (number > 0 || !told_of_it(run)) continue;
    kind = run.kind;
    number = of_kind[static_cast<std::size_t>(kind)];
  }
  const std::string name = kind == RunKind::strip ? "Strip" : "Spirit run";
  const int all = of_kind[static_cast<std::size_t>(kind)];
  return number > 0 && all > 1 ? fmt::format("{} {} of {}", name, number, all) : name;
}

struct Words {
  std::string what, read, expected;
};

template <class Quantity>
std::string from_to(Quantity low, Quantity high, units::System system) {
  return fmt::format("{} to {}", cell(low, system), cell(high, system));
}

Words in_words(const Record& record, const journal::Id& entry, const still::Doubt& doubt) {
  const units::System system = record.system;
  Words words;
  words.what = fmt::format("{}: {}", run_of(record, entry), still::words(doubt.instrument));
  const auto put = [&](const auto& of) {
    words.read = cell(of(doubt.shown), system);
    words.expected = doubt.nothing_runs ? "nothing to run yet"
                                        : from_to(of(doubt.low), of(doubt.high), system);
  };
  switch (doubt.instrument) {
    case still::Instrument::pot_thermometer:
    case still::Instrument::head_thermometer:
      put([](double v) { return units::Temperature::celsius(v); });
      break;
    case still::Instrument::hydrometer:
      put([](double v) { return units::VolumeStrength::percent(v); });
      words.read += ", true";
      break;
    case still::Instrument::jar:
      put([](double v) { return units::Volume::millilitres(v); });
      words.read += " come over";
      break;
  }
  return words;
}

Words in_words(const Record& record, const journal::Id& entry,
               const ferment::DoubtedGravity& doubt) {
  Words words{"Ferment: gravity",
              {},
              fmt::format("{} to {}", gravity_cell(doubt.expected.low),
                          gravity_cell(doubt.expected.high))};
  for (const journal::FermentPoint& point : record.batch.ferment.points) {
    if (point.told.entry == entry && point.gravity) words.read = gravity_cell(*point.gravity);
  }
  return words;
}

Words in_words(const Record& record, const journal::Id& entry, const std::string& why) {
  Words words{run_of(record, entry) + ": the reading", {}, why};
  for (const journal::Standing& one : record.standings.entries) {
    if (one.id == entry) words.read = sheet::in_words(*one.said, record.system);
  }
  return words;
}

}  // namespace

Html record_doubts(const Record& record) {
  if (!record.from.followed) return {};
  const Followed& followed = *record.from.followed;
  struct Row {
    journal::Moment at;
    std::vector<std::string> cells;
  };
  std::vector<Row> rows;
  for (const NotBelieved& one : followed.doubts) {
    const Words words = std::visit(
        [&](const auto& doubt) { return in_words(record, one.entry, doubt); }, one.what);
    Row row{{},
            {std::string(no_figure), words.what, words.read, words.expected,
             std::string(no_figure)}};
    for (const journal::Standing& standing : record.standings.entries) {
      if (standing.id != one.entry) continue;
      row.at = standing.happened;
      row.cells.front() = when(record, row.at);
      if (!standing.said->who.empty()) row.cells.back() = standing.said->who;
    }
    rows.push_back(std::move(row));
  }
  if (rows.empty() && followed.without.empty()) return {};
  std::stable_sort(rows.begin(), rows.end(),
                   [](const Row& a, const Row& b) { return a.at < b.at; });
  Table doubts{.caption = "",
               .columns = {{"When", Align::left, 14},
                           {"what", Align::left, 26},
                           {"read", Align::right, 18},
                           {"expected", Align::right, 24},
                           {"by", Align::left}},
               .rows = {}};
  for (Row& row : rows) doubts.rows.push_back(std::move(row.cells));
  Html part = heading("Kept, not believed");
  std::string small =
      "These readings stand in the journal and in the tables as they were told; the forecast "
      "of "
      "their run or ferment does not go by them. Expected: four times in five, by all its "
      "other "
      "readings, or as planned where none of them is believed. Nobody told this: it is "
      "reckoned from the journal, with the plan's kit.";
  if (!followed.without.empty()) {
    small += fmt::format("{}Not followed, so that nothing is said of its readings: {}.",
                         rows.empty() ? "" : " ", fmt::join(followed.without, "; "));
    if (rows.empty()) small = small.substr(small.find("Not followed"));
  }
  part += small_print(small);
  return rows.empty() ? part : part + table(doubts);
}

}  // namespace lynearm::sheet
