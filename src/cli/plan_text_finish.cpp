// From the hearts to the bottle in text.
#include <fmt/format.h>

#include "cli/plan_text_parts.hpp"
#include "spirit/lot.hpp"
#include "wood/species.hpp"

namespace lynearm::cli::planned {
namespace {

bool no_hearts(const Batch& batch) { return !something(batch.plan.finish.reduce.result); }

std::string days_of(const std::vector<units::Duration>& days) {
  std::string text;
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (i > 0) text += i + 1 == days.size() ? " and " : ", ";
    text += fmt::format("{:.0f}", days[i].days());
  }
  return text;
}

std::string size_of(const plan::StaveStock& staves, units::System system) {
  if (system == units::System::us) {
    return fmt::format("{:.2f} x {:.2f} x {:.2f} in", staves.length.inches(),
                       staves.width.inches(), staves.thickness.inches());
  }
  return fmt::format("{:.0f} x {:.0f} x {:.0f} mm", staves.length.millimetres(),
                     staves.width.millimetres(), staves.thickness.millimetres());
}

std::string extract_sentence(const Batch& batch, const plan::WoodPlan& wood) {
  std::string text = fmt::format(
      "By then the wood has given {} of what a new charred 200 L cask "
      "gives in eight years",
      batch.print(wood.extract));
  if (wood.like_cask_years) {
    text += fmt::format(", as much as such a cask in {}", batch.print(*wood.like_cask_years));
  }
  return text + " (read it as plus or minus 40 %).";
}

}  // namespace

std::string reduce_part(const Batch& batch) {
  std::string text = heading("Reduce", batch.look);
  if (no_hearts(batch)) return text + paragraph("There are no hearts to reduce.");
  const plan::ReducePlan& reduce = batch.plan.finish.reduce;
  text +=
      lines({{"Hearts, aired", batch.print(spirit::volume(reduce.hearts)), "",
              fmt::format("at {}", batch.print(spirit::strength(reduce.hearts)))},
             {"Water, by mass", batch.print(reduce.water), "",
              fmt::format("or {} at {}; the scale is surer", batch.print(reduce.water_volume),
                          batch.print(batch.recipe.reduce.water_temperature))},
             principal(batch, "maturing_volume_L_20C", "At maturing strength",
                       fmt::format("at {}; it shrinks by {}", batch.print(reduce.strength),
                                   batch.in_the_glass(reduce.contraction)))});
  text += paragraph(
      "Water into spirit, in steps of a few points, stirred, over days. Gauge it again when it "
      "has cooled and the bubbles are gone.");
  return text + caution_of(sheet::cautions::storage, batch.look);
}

std::string wood_part(const Batch& batch) {
  if (!batch.plan.finish.wood || !batch.recipe.wood || no_hearts(batch)) return {};
  const plan::WoodPlan& wood = *batch.plan.finish.wood;
  const plan::WoodStep& step = *batch.recipe.wood;
  const std::string kind =
      fmt::format("{}, {}", wood::species(step.species).name, wood::toast(step.toast).name);
  std::vector<Line> rows;
  if (wood.staves > 0) {
    rows.push_back({"Staves", fmt::format("{}", wood.staves), "",
                    batch.kit.staves ? fmt::format("{}; each {}", kind,
                                                   size_of(*batch.kit.staves, batch.look.units))
                                     : kind});
  }
  rows.push_back(
      {wood.staves > 0 ? std::string("Spirit over them") : fmt::format("Into the {}", wood.in),
       batch.print(wood.filled), "",
       wood.staves > 0 ? std::string("leave 3 to 5 % of the vessel to swell into") : kind});
  if (something(wood.beyond_cask)) {
    rows.push_back({"Beyond the cask", batch.print(spirit::volume(wood.beyond_cask)), "",
                    "kept in glass, for topping up"});
  }
  rows.push_back({"Wood to a litre", batch.print(wood.surface), "",
                  fmt::format("{:.1f} times a 200 L cask's", wood.times_a_200L_cask)});
  rows.push_back({"Time", batch.print(wood.time), "",
                  fmt::format("at {}", batch.print(step.temperature))});
  rows.push_back({"The wood takes up", batch.print(spirit::volume(wood.soaked))});
  rows.push_back({"The air takes", batch.print(wood.evaporated_volume)});
  rows.push_back({"Matured", batch.print(wood.volume), "",
                  fmt::format("at {}", batch.print(wood.strength))});
  std::string text = heading("Wood", batch.look) + lines(rows);
  if (!wood.sampling_days.empty()) {
    text += paragraph(
        fmt::format("Draw {} and taste it, diluted, on days {}; the last is the day "
                    "of bottling.",
                    batch.in_the_glass(wood.each_sample), days_of(wood.sampling_days)));
  }
  text += paragraph(extract_sentence(batch, wood));
  text +=
      caution_of({"extraction is not age",
                  "Small casks and staves give colour and tannin in months, but not what air "
                  "and years do. Taste early and often; what the wood gave cannot be taken "
                  "out."},
                 batch.look);
  return text;
}

std::string bottle_part(const Batch& batch) {
  std::string text = heading("Bottle", batch.look);
  if (no_hearts(batch)) return text + paragraph("There is nothing to bottle.");
  const plan::BottlePlan& bottle = batch.plan.finish.bottle;
  std::vector<Line> rows = {{"Water, by mass", batch.print(bottle.water)},
                            principal(batch, "bottled_volume_L_20C", "At bottling strength",
                                      fmt::format("at {}", batch.print(bottle.strength)))};
  if (something(bottle.filter_loss)) {
    rows.push_back(
        {"Left in the filter", batch.in_the_glass(spirit::volume(bottle.filter_loss))});
  }
  rows.push_back(principal(batch, "bottles", "Bottles",
                           fmt::format("of {}, and {} over", batch.print(bottle.size),
                                       batch.in_the_glass(bottle.remainder_volume))));
  text += lines(rows);
  return text + paragraph(
                    "What the wood gave hides strength from a hydrometer: the true strength of "
                    "wooded spirit wants a distilled sample. Label each bottle with strength, "
                    "volume, batch, and what the law of the place asks.");
}

}  // namespace lynearm::cli::planned
