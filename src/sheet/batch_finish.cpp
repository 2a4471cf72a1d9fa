// From the hearts to the bottle on paper.
#include <fmt/format.h>

#include <algorithm>

#include "sheet/batch_parts.hpp"
#include "sheet/wood_words.hpp"
#include "spirit/lot.hpp"
#include "wood/extraction.hpp"

namespace lynearm::sheet {
namespace {

bool empty(const Batch& batch) {
  return batch.plan.finish.reduce.result.mass() <= units::Mass::grams(1.0);
}

bool something_beyond(const plan::WoodPlan& wood) {
  return wood.beyond_cask.mass() > units::Mass::grams(1.0);
}

Html sampling_table(const Batch& batch, const plan::WoodPlan& wood) {
  if (wood.sampling_days.empty()) return {};
  Table samples{
      .caption = fmt::format("Samples of {}", in_the_glass(wood.each_sample, batch.system)),
      .columns = {{"", Align::centre, 4},
                  {"after", Align::right, 10},
                  {"date", Align::left, 14},
                  {"strength", Align::left, 12},
                  {"colour", Align::left, 14},
                  {"nose and palate", Align::left}},
      .rows = {},
      .room_to_write = true};
  for (std::size_t i = 0; i < wood.sampling_days.size(); ++i) {
    samples.rows.push_back({fmt::format("{}", i + 1),
                            tight(fmt::format("{:.0f} d", wood.sampling_days[i].days())), "",
                            "", "", ""});
  }
  return table(samples);
}

Html filled_table(const Batch& batch, const plan::WoodPlan& wood) {
  const plan::WoodStep& step = *batch.recipe.wood;
  const units::System system = batch.system;
  std::vector<PlannedRow> rows;
  if (wood.staves > 0) {
    rows.push_back({"Staves", fmt::format("{}", wood.staves), "", true,
                    fmt::format("{}, {}", species_words(step.species), step.toast)});
  } else {
    rows.push_back({"Into the " + wood.in, "", "", false,
                    fmt::format("{}, {}", species_words(step.species), step.toast)});
  }
  rows.push_back(
      row(batch, "Filled", wood.filled, "leave 3 to 5 % of the vessel to swell into"));
  if (something_beyond(wood)) {
    rows.push_back(
        row(batch, "Beyond the cask, kept in glass", spirit::volume(wood.beyond_cask)));
  }
  rows.push_back(fixed_row(batch, "Wood met by a litre", wood.surface,
                           fmt::format("{:.1f} times a 200 L cask's", wood.times_a_200L_cask)));
  rows.push_back(
      row(batch, "Time", wood.time, fmt::format("at {}", cell(step.temperature, system))));
  return table(PlannedTable{"Filled", std::move(rows)});
}

Html matured_table(const Batch& batch, const plan::WoodPlan& wood) {
  const units::System system = batch.system;
  std::vector<PlannedRow> rows;
  rows.push_back(fixed_row(
      batch, "Extract", wood.extract,
      wood.like_cask_years ? fmt::format("of a new charred 200 L cask's in eight years; such a "
                                         "cask gives as much in {}",
                                         cell(*wood.like_cask_years, system))
                           : std::string("of a new charred 200 L cask's in eight years")));
  rows.push_back(
      row(batch, "Taken up by the wood", spirit::volume(wood.soaked), "", std::nullopt, false));
  rows.push_back(row(batch, "Evaporated", wood.evaporated_volume, "", std::nullopt, false));
  rows.push_back(row(batch, "Matured spirit", wood.volume));
  rows.push_back(row(batch, "its strength", wood.strength));
  return table(PlannedTable{"Matured", std::move(rows)});
}

}  // namespace

Html reduce_part(const Batch& batch) {
  if (empty(batch)) return {};
  const plan::ReducePlan& reduce = batch.plan.finish.reduce;
  std::vector<PlannedRow> rows = {
      row(batch, "Hearts, to be reduced", spirit::volume(reduce.hearts)),
      row(batch, "their strength", spirit::strength(reduce.hearts)),
      row(batch, "Water, by mass", reduce.water, "the scale is surer than the measure"),
      row(batch, "or by volume", reduce.water_volume,
          fmt::format("at {}", cell(batch.recipe.reduce.water_temperature, batch.system))),
      row(batch, "At maturing strength", reduce.volume, "at 20 °C", 2),
      row(batch, "its strength", reduce.strength),
      row(batch, "Shrinks by", reduce.contraction, "", std::nullopt, false)};
  return heading("Reduce") + framed(cautions::storage) +
         table(PlannedTable{"Planned and measured", std::move(rows)}) +
         checklist({"Water into spirit, in steps of a few points, stirred, over days",
                    "100 mL reduced first, warm and cold: does it stay clear?",
                    "Gauged again when it has cooled and the bubbles are gone"});
}

Html wood_part(const Batch& batch) {
  if (!batch.plan.finish.wood || !batch.recipe.wood) return {};
  const plan::WoodPlan& wood = *batch.plan.finish.wood;
  return heading("Wood") +
         beside(caution("Not age", wood::extraction_caution), framed(cautions::charring)) +
         filled_table(batch, wood) + sampling_table(batch, wood) + matured_table(batch, wood);
}

Html bottle_part(const Batch& batch) {
  if (empty(batch)) return {};
  const plan::BottlePlan& bottle = batch.plan.finish.bottle;
  std::vector<PlannedRow> rows = {
      row(batch, "Water, by mass", bottle.water),
      row(batch, "At bottling strength", bottle.volume, "at 20 °C", 2),
      row(batch, "its strength", bottle.strength)};
  rows.push_back({"Bottles", fmt::format("{}", bottle.bottles), "", true,
                  fmt::format("of {}", cell(bottle.size, batch.system))});
  rows.push_back(row(batch, "Remainder", bottle.remainder_volume));
  const units::Volume filter = spirit::volume(bottle.filter_loss);
  if (filter > units::Volume::millilitres(0.5)) {
    rows.push_back(row(batch, "Left in the filter", filter));
  }
  return heading("Bottle") + table(PlannedTable{"Planned and measured", std::move(rows)}) +
         checklist(
             {"True strength of wooded spirit: distil a sample, or weigh the extract in; a "
              "hydrometer alone reads too little",
              "Label: strength, volume, lot, and what the law of the place asks"});
}

}  // namespace lynearm::sheet
