#include "cli/plan_text.hpp"

#include <fmt/format.h>

#include "cli/plan_text_parts.hpp"
#include "plan/house.hpp"
#include "units/restate.hpp"

namespace lynearm::cli {
namespace {

using planned::Batch;

constexpr const char* law =
    "The law: distilling without a licence is unlawful in many countries, even for own use. "
    "This plan is a forecast and no permission: local law, fire code and licensed practice "
    "decide.";

const char* made_of(const Batch& batch) {
  const plan::BillPlan& bill = batch.plan.mash.bill;
  if (bill.grain.empty()) return "sugar";
  return bill.grain.size() == bill.lines.size() ? "grain" : "grain and sugar";
}

// One line, so in one system; both stand below.
std::string title(const Batch& batch) {
  const units::System system =
      batch.look.units == units::System::us ? units::System::us : units::System::metric;
  const plan::BottlePlan& bottle = batch.plan.finish.bottle;
  return headline(
      fmt::format("{}: {} of {} at {}, from {} of {}.", batch.recipe.name,
                  planned::count_of(bottle.bottles, "bottle", "bottles"),
                  units::print(bottle.size, system), shown(bottle.strength, system),
                  units::print(batch.plan.mash.bill.potential.mass, system), made_of(batch)),
      batch.look);
}

// The few figures that are asked for first, and what a figure in brackets means.
std::string glance(const Batch& batch) {
  const plan::Plan& plan = batch.plan;
  std::string text =
      planned::paragraph(fmt::format("Kit: {}. Water boils there at {}.", batch.kit.name,
                                     batch.print(plan::boiling_water(batch.kit))));
  if (!batch.recipe.remark.empty()) text += planned::paragraph(batch.recipe.remark);
  text += "\n";
  text += planned::lines(
      {principal(batch, "wort_volume_L_20C", "Wort"),
       principal(batch, "original_gravity", "Original gravity"),
       principal(batch, "wash_percent_vol", "Wash"),
       principal(
           batch, "low_wines_volume_L_20C", "Low wines",
           fmt::format("from {} of {}", planned::count_of(plan.strip.runs, "strip", "strips"),
                       batch.print(plan.strip.one.charge_volume, 1))),
       principal(batch, "hearts_volume_L_20C", "Hearts",
                 fmt::format("from {} of {}",
                             planned::count_of(plan.spirit.runs, "spirit run", "spirit runs"),
                             batch.print(plan.spirit.one.charge_volume, 1))),
       principal(batch, "hearts_percent_vol", "their strength"),
       principal(batch, "maturing_volume_L_20C", "At maturing strength",
                 fmt::format("at {}", batch.print(plan.finish.reduce.strength))),
       principal(
           batch, "bottles", "Bottles",
           fmt::format("and {} over", batch.print(plan.finish.bottle.remainder_volume)))});
  text += "\n";
  text += planned::paragraph(
      fmt::format("Hands on {}, watching the heat {}; {} from the first step to the last. "
                  "Volumes and strengths are at 20 °C unless it says otherwise.",
                  batch.print(plan.timeline.hands_on()), batch.print(plan.timeline.watching()),
                  batch.print(plan.timeline.whole())));
  if (batch.bands != nullptr) {
    text += planned::paragraph(fmt::format(
        "In brackets: of {} batches like this one, reckoned with the house's constants drawn "
        "from their spread, four in five lie between the two; without brackets the recipe "
        "fixes "
        "it.{}",
        batch.bands->members,
        batch.bands->failed > 0
            ? fmt::format(" {} more could not be carried through.", batch.bands->failed)
            : std::string()));
  }
  return text;
}

const char* paint(plan::Weight weight) {
  switch (weight) {
    case plan::Weight::stop:
    case plan::Weight::danger:
      return "\033[31m";
    case plan::Weight::caution:
      return "\033[33m";
    case plan::Weight::remark:
      break;
  }
  return "\033[1m";
}

std::string findings_part(const Batch& batch) {
  std::string text = planned::heading("Findings, worst first", batch.look);
  if (batch.plan.findings.empty()) {
    return text + planned::paragraph(
                      "Nothing was found against this plan. What it cannot know stays yours to "
                      "look for.");
  }
  // The word stands in a column of its own, so that the eye finds the worst.
  constexpr std::size_t word_width = 14;
  for (const plan::Finding& finding : batch.plan.findings) {
    const std::string word = plan::words(finding.weight);
    const auto put = [&](std::size_t at, const std::string& line) {
      const std::string lead = at == 0 ? word : std::string();
      text += "  ";
      text += batch.look.colour && at == 0
                  ? fmt::format("{}{}\033[0m", paint(finding.weight), lead)
                  : lead;
      text += std::string(word_width - lead.size(), ' ');
      text += line;
      text += '\n';
    };
    const std::vector<std::string> says = wrapped(
        fmt::format("{}: {}", finding.stage, units::restated(finding.says, batch.look.units)),
        page_width - word_width - 2);
    for (std::size_t i = 0; i < says.size(); ++i) put(i, says[i]);
    const std::vector<std::string> remedy =
        wrapped(fmt::format("-> {}", units::restated(finding.remedy, batch.look.units)),
                page_width - word_width - 2);
    for (const std::string& line : remedy) put(1, line);
  }
  return text;
}

}  // namespace

std::string plan_text(const plan::Recipe& recipe, const plan::Kit& kit, const plan::Plan& plan,
                      const plan::Bands* bands, const Look& look) {
  const Batch batch{recipe, kit, plan, bands, look};
  std::string text = title(batch) + planned::paragraph(law) + "\n";
  text += glance(batch) + findings_part(batch);
  text += planned::bill_part(batch) + planned::mash_part(batch) + planned::wort_part(batch);
  text +=
      planned::ferment_part(batch) + planned::strip_part(batch) + planned::spirit_part(batch);
  text += planned::reduce_part(batch) + planned::wood_part(batch) + planned::bottle_part(batch);
  text += planned::classes_part(batch);
  return text + planned::ledger_part(batch) + planned::timeline_part(batch);
}

}  // namespace lynearm::cli
