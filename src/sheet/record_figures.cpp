// The main figures of a batch: planned, as they were measured, and what parts them.
#include <fmt/format.h>

#include <map>

#include "plan/figures.hpp"
#include "sheet/record_flow.hpp"
#include "sheet/record_parts.hpp"

namespace lynearm::sheet {
namespace {

using journal::LotKind;
using journal::LotState;
using journal::RunKind;

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
  if (const auto reduced = maturing(record)) {
    found["maturing_volume_L_20C"] = spirit::volume(*reduced).litres();
  }
  const Bottles bottles = bottles_of(record);
  if (bottles.count > 0) {
    found["bottles"] = bottles.count;
    found["bottled_volume_L_20C"] = bottles.volume.litres();
  }
  return found;
}

}  // namespace

Html record_figures(const Record& record) {
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
      const double was = principal_as_printed(figure, planned, record.system);
      const double by = principal_as_printed(figure, at->second, record.system) - was;
      // Of a batch in hand some may still lie in wood or glass.
      const bool may_come = !record.batch.closed && figure.stage == "Bottle";
      if (may_come) {
        more = "so far";
      } else if (record.system != units::System::us) {
        more = tight(fmt::format("{}{}{}", less_or_more(by, figure.decimals),
                                 figure.unit.empty() ? "" : " ", figure.unit));
      } else if (was > 0.0 && figure.unit == "L") {
        more = tight(fmt::format("{} %", less_or_more(100.0 * by / was, 1)));
      }
    }
    figures.rows.push_back({capital(std::string(figure.name)),
                            principal(figure, planned, record.system), std::move(measured),
                            std::move(more)});
  }
  return in_halves(std::move(figures));
}

}  // namespace lynearm::sheet
