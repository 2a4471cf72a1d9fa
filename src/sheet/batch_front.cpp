// The first page: who and when, the principal figures with their bands, what was found against
// the plan, and the stream of pure alcohol.
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "plan/house.hpp"
#include "sheet/batch_parts.hpp"
#include "sheet/batch_pictures.hpp"
#include "units/restate.hpp"

namespace lynearm::sheet {
namespace {

const plan::Banded* band_of(const Batch& batch, const plan::Figure& figure) {
  if (batch.bands == nullptr) return nullptr;
  const auto& all = batch.bands->figures;
  const auto at = std::find_if(all.begin(), all.end(), [&](const plan::Banded& banded) {
    return banded.figure != nullptr && banded.figure->key == figure.key;
  });
  return at == all.end() ? nullptr : &*at;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

Table principal_table(const Batch& batch) {
  Table table;
  table.columns = {{"", Align::left, 48}, {"planned", Align::right}};
  if (batch.bands != nullptr) table.columns.push_back({"4 in 5", Align::right});
  return table;
}

Html principal_figures(const Batch& batch) {
  std::vector<std::vector<std::string>> rows;
  for (const plan::Figure* of_plan : plan::figures_of(batch.plan)) {
    const plan::Figure& figure = *of_plan;
    std::vector<std::string> row = {capital(std::string(figure.name)),
                                    principal(figure, figure.of(batch.plan), batch.system)};
    if (batch.bands != nullptr) {
      const plan::Banded* banded = band_of(batch, figure);
      row.push_back(banded == nullptr ? std::string{}
                                      : principal_band(figure, banded->band, batch.system));
    }
    rows.push_back(std::move(row));
  }
  Table left = principal_table(batch);
  Table right = left;
  const auto half = static_cast<std::ptrdiff_t>((rows.size() + 1) / 2);
  left.rows.assign(rows.begin(), rows.begin() + half);
  right.rows.assign(rows.begin() + half, rows.end());
  Html both = beside(table(left), table(right));
  if (batch.bands == nullptr) return both;
  std::string note = fmt::format(
      "4 in 5: of {} batches like this one, reckoned with the house's constants drawn from "
      "their spread, four in five lie within.",
      batch.bands->members);
  if (batch.bands->failed > 0) {
    note += fmt::format(" {} more could not be carried through.", batch.bands->failed);
  }
  return both + small_print(note);
}

std::string runs_in_words(int runs, const plan::RunPlan& one, units::System system) {
  return fmt::format("{} of {}", runs, cell(one.charge_volume, system));
}

Html effort(const Batch& batch) {
  const plan::Plan& plan = batch.plan;
  const units::System system = batch.system;
  std::vector<std::pair<std::string, std::string>> entries = {
      {"Begun on", "________________"},
      {"By", "________________"},
      {"Strips", runs_in_words(plan.strip.runs, plan.strip.one, system)},
      {"Spirit runs", runs_in_words(plan.spirit.runs, plan.spirit.one, system)},
      {"Water boils here at", cell(plan::boiling_water(batch.kit), system)},
      {"Hands on", cell(plan.timeline.hands_on(), system)},
      {"Watching the heat", cell(plan.timeline.watching(), system)},
      {"First step to last", cell(plan.timeline.whole(), system)}};
  return facts(entries);
}

Html findings(const Batch& batch) {
  if (batch.plan.findings.empty()) {
    return paragraph(
        "Nothing was found against this plan. What it cannot know stays yours to "
        "look for.");
  }
  Writer out;
  for (const plan::Finding& finding : batch.plan.findings) {
    out.open("p").element("strong", {},
                          fmt::format("{}, {}: ", plan::words(finding.weight), finding.stage));
    out.text(units::restated(finding.says, batch.system) + " ")
        .element("em", {}, units::restated(finding.remedy, batch.system))
        .close();
  }
  return out.finish();
}

}  // namespace

Html batch_at_a_glance(const Batch& batch) {
  Html page = framed(cautions::law);
  if (!batch.recipe.remark.empty()) page += paragraph(batch.recipe.remark);
  page += effort(batch) + principal_figures(batch);
  page += subheading("What does not fit, or is not wise") + findings(batch);
  page += figure(stream_picture(batch.plan.ledger, batch.system),
                 "Pure alcohol at 20 °C, to scale: below what is lost, above what is kept or "
                 "comes in, at the right what is bottled. Each loss by itself: see Ledger.");
  return page;
}

}  // namespace lynearm::sheet
