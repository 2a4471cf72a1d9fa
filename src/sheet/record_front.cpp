// The first page of a record: what the batch was, what came of it, the main figures planned and
// measured.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "plan/figures.hpp"
#include "sheet/record_parts.hpp"

namespace lynearm::sheet {
namespace {

using journal::LotKind;
using journal::LotState;
using journal::RunKind;

constexpr Caution law_of_a_record{
    "Law",
    "Distilling without a licence is unlawful in many countries, even for one's own use. This "
    "record is kept for the maker and is no permission: local law, fire code and licensed "
    "practice decide. Nothing in it says that a spirit may be drunk."};

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

// Dry is the first reading that no later one goes below by more than half a mark.
std::optional<double> days_to_dry(const journal::FermentState& ferment) {
  constexpr double half_a_mark = 0.0006;
  if (!ferment.pitch) return std::nullopt;
  for (std::size_t i = 0; i < ferment.points.size(); ++i) {
    if (!ferment.points[i].gravity) continue;
    bool later = false;
    bool stays = true;
    for (std::size_t k = i + 1; k < ferment.points.size(); ++k) {
      if (!ferment.points[k].gravity) continue;
      later = true;
      stays =
          stays && ferment.points[i].gravity->ratio() - ferment.points[k].gravity->ratio() <=
                       half_a_mark;
    }
    if (later && stays) {
      return journal::since(ferment.points[i].told.at, ferment.pitch->told.at).days();
    }
  }
  return std::nullopt;
}

// Hours from the heat to the end: of ended runs, their mean.
std::optional<double> hours_of(const journal::BatchState& batch, RunKind kind) {
  double sum = 0.0;
  int count = 0;
  for (const journal::RunState& run : batch.runs) {
    if (run.kind != kind || !run.ended) continue;
    sum += journal::since(run.ended->at, run.told.at).hours();
    ++count;
  }
  return count > 0 ? std::optional(sum / count) : std::nullopt;
}

struct Bottles {
  int count = 0;
  units::Volume volume;
};

Bottles bottles_of(const Record& record) {
  Bottles all;
  for (const LotState* lot : lots_of(record, LotKind::bottles)) {
    if (!lot->bottles) continue;
    all.count += lot->bottles->bottles;
    all.volume += lot->bottles->size * static_cast<double>(lot->bottles->bottles);
  }
  return all;
}

// The plan's principal figures as they were measured, by key.
std::map<std::string_view, double> measured_figures(const Record& record) {
  std::map<std::string_view, double> found;
  const journal::FermentState& ferment = record.batch.ferment;
  if (ferment.pitch) {
    found["wort_volume_L_20C"] = ferment.pitch->volume.litres();
    found["original_gravity"] = ferment.pitch->gravity.ratio();
  }
  if (ferment.wash) {
    found["final_gravity"] = ferment.wash->gravity.ratio();
    found["wash_percent_vol"] = ferment.wash->strength.percent();
  }
  if (const auto dry = days_to_dry(ferment)) found["days_to_dry"] = *dry;
  const auto lot = [&](LotKind kind, const char* volume, const char* strength,
                       const char* pure) {
    const auto lots = lots_of(record, kind);
    if (lots.empty()) return;
    const spirit::Lot sum = sum_made(lots);
    found[volume] = spirit::volume(sum).litres();
    if (strength != nullptr) found[strength] = spirit::strength(sum).percent();
    if (pure != nullptr) found[pure] = spirit::pure_alcohol(sum).litres();
  };
  lot(LotKind::low_wines, "low_wines_volume_L_20C", "low_wines_percent_vol", nullptr);
  lot(LotKind::hearts, "hearts_volume_L_20C", "hearts_percent_vol", "hearts_pure_alcohol_L");
  lot(LotKind::feints, "feints_kept_volume_L_20C", nullptr, nullptr);
  if (const auto h = hours_of(record.batch, RunKind::strip)) found["strip_run_hours"] = *h;
  if (const auto h = hours_of(record.batch, RunKind::spirit)) found["spirit_run_hours"] = *h;
  units::Volume maturing;
  for (const LotState* one : lots_of(record, LotKind::spirit)) {
    if (one->wood) maturing += spirit::volume(one->made);
  }
  if (maturing > units::Volume{}) found["maturing_volume_L_20C"] = maturing.litres();
  const Bottles bottles = bottles_of(record);
  if (bottles.count > 0) {
    found["bottles"] = bottles.count;
    found["bottled_volume_L_20C"] = bottles.volume.litres();
  }
  return found;
}

Html main_figures(const Record& record) {
  const std::map<std::string_view, double> found = measured_figures(record);
  Table figures{.caption = "",
                .columns = {{"", Align::left, 40},
                            {"planned", Align::right},
                            {"measured", Align::right},
                            {"less or more", Align::right}},
                .rows = {}};
  for (const plan::Figure* of_plan : plan::figures_of(record.planned.plan)) {
    const plan::Figure& figure = *of_plan;
    // These stand with the mash: nobody measures them as one figure.
    if (figure.key == "extract_potential_kg" || figure.key == "landing_temperature_C" ||
        figure.key == "dough_in_temperature_C") {
      continue;
    }
    const double planned = figure.of(record.planned.plan);
    std::string measured = open_cell(record);
    std::string more(no_figure);
    if (const auto at = found.find(figure.key); at != found.end()) {
      measured = principal(figure, at->second, record.system);
      // A difference in the plan's own unit: strengths in two systems do not subtract.
      const double by = at->second - planned;
      const bool plus =
          by > 0.0 && units::fixed(by, figure.decimals) != units::fixed(0.0, figure.decimals);
      // Of a batch in hand some may still lie in wood or glass.
      const bool may_come = !record.batch.closed && figure.stage == "Bottle";
      if (may_come) {
        more = "so far";
      } else if (record.system != units::System::us) {
        more = tight(fmt::format("{}{}{}{}", plus ? "+" : "", units::fixed(by, figure.decimals),
                                 figure.unit.empty() ? "" : " ", figure.unit));
      } else if (planned > 0.0 && figure.unit == "L") {
        more = tight(fmt::format("{:+.1f} %", 100.0 * by / planned));
      }
    }
    figures.rows.push_back({capital(std::string(figure.name)),
                            principal(figure, planned, record.system), std::move(measured),
                            std::move(more)});
  }
  return table(figures);
}

// What came of it, in sentences.
std::string outcome(const Record& record) {
  const journal::BatchState& batch = record.batch;
  const units::System system = record.system;
  std::vector<std::string> told;
  if (batch.ferment.pitch) {
    std::string text =
        fmt::format("{} of wort at {} were pitched", cell(batch.ferment.pitch->volume, system),
                    gravity_cell(batch.ferment.pitch->gravity));
    if (batch.ferment.wash) {
      text += fmt::format(" and fermented to {}, a wash of {}",
                          gravity_cell(batch.ferment.wash->gravity),
                          cell(batch.ferment.wash->strength, system));
    }
    told.push_back(text + ".");
  }
  const auto count = [&](RunKind kind) {
    return static_cast<int>(std::count_if(batch.runs.begin(), batch.runs.end(),
                                          [&](const auto& run) { return run.kind == kind; }));
  };
  const auto low_wines = lots_of(record, LotKind::low_wines);
  if (!low_wines.empty()) {
    told.push_back(fmt::format("{} gave {} of low wines.",
                               count_of(count(RunKind::strip), "strip", "strips"),
                               lot_words(sum_made(low_wines), system)));
  }
  const auto hearts = lots_of(record, LotKind::hearts);
  if (!hearts.empty()) {
    told.push_back(
        fmt::format("{} gave {} of hearts; {} of feints are kept.",
                    count(RunKind::spirit) == 1 ? "The spirit run" : "The spirit runs",
                    lot_words(sum_made(hearts), system),
                    lot_words(sum_made(lots_of(record, LotKind::feints)), system)));
  } else if (count(RunKind::spirit) > 0) {
    std::size_t jars = 0;
    bool going = false;
    for (const journal::RunState& run : batch.runs) {
      if (run.kind != RunKind::spirit) continue;
      jars += run.jars.size();
      going = going || run.standing != journal::RunStanding::ended;
    }
    told.push_back(fmt::format("The spirit run {}; {} filled, and no cut is made yet.",
                               going ? "is not ended" : "is ended",
                               count_of(static_cast<int>(jars), "jar is", "jars are")));
  }
  for (const LotState* lot : lots_of(record, LotKind::spirit)) {
    if (!lot->wood || lot->left.mass() <= units::Mass::grams(1.0)) continue;
    told.push_back(fmt::format("On wood: {} ({}).", lot_words(lot->left, system), lot->label));
  }
  for (const LotState* lot : lots_of(record, LotKind::bottles)) {
    if (!lot->bottles) continue;
    told.push_back(fmt::format("Bottled {}: {} of {} at {}.", day(record, lot->told.at),
                               count_of(lot->bottles->bottles, "bottle", "bottles"),
                               cell(lot->bottles->size, system),
                               cell(lot->bottles->strength, system)));
  }
  return told.empty() ? "Nothing of it is measured yet."
                      : fmt::format("{}", fmt::join(told, " "));
}

std::string clock_words(int minutes_east) {
  if (minutes_east == 0) return "UTC";
  const int size = std::abs(minutes_east);
  return tight(
      fmt::format("UTC {} {}:{:02}", minutes_east < 0 ? "−" : "+", size / 60, size % 60));
}

Html dates(const Record& record) {
  const journal::BatchState& batch = record.batch;
  std::vector<std::pair<std::string, std::string>> entries;
  entries.emplace_back("Begun", batch.begun ? day(record, batch.begun->at) : "–");
  if (batch.closed) {
    entries.emplace_back("Closed", day(record, batch.closed->at));
  } else {
    entries.emplace_back("In hand; last told", when(record, batch.last));
  }
  std::vector<journal::Told> tellers;
  for (const journal::Standing& one : record.standings.entries) tellers.push_back(told_of(one));
  std::vector<const journal::Told*> all;
  for (const journal::Told& one : tellers) all.push_back(&one);
  entries.emplace_back("Told by", by_whom(all));
  entries.emplace_back("Entries", batch.struck > 0 ? fmt::format("{}, and {} struck out",
                                                                 batch.entries, batch.struck)
                                                   : fmt::format("{}", batch.entries));
  if (batch.plan) {
    entries.emplace_back(
        "The plan",
        batch.plan->earlier > 0
            ? fmt::format("{}; {}", when(record, batch.plan->told.at),
                          count_of(batch.plan->earlier, "earlier one", "earlier ones"))
            : when(record, batch.plan->told.at));
  }
  entries.emplace_back("Times are", clock_words(record.from.minutes_east));
  return facts(entries);
}

}  // namespace

Html record_front(const Record& record) {
  Html front = framed(law_of_a_record);
  if (!record.batch.remark.empty()) front += paragraph(record.batch.remark);
  if (record.batch.invented) {
    front += paragraph("Invented: a demonstration. Nobody made this spirit.");
  }
  front += dates(record);
  front += subheading("What came of it") + paragraph(outcome(record));
  front += subheading("Planned and measured") + main_figures(record);
  Writer out;
  out.open("div", {{"class", "front"}}).html(front).close();
  return out.finish();
}

}  // namespace lynearm::sheet
