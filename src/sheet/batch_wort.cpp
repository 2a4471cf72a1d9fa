// From the run-offs to the fermenter on paper: sugar, cooling, topping up.
#include <fmt/format.h>

#include "sheet/batch_parts.hpp"

namespace lynearm::sheet {
namespace {

Html sugar_part(const Batch& batch) {
  if (!batch.plan.mash.sugar || !batch.recipe.sugar_boil) return {};
  const plan::SugarPlan& sugar = *batch.plan.mash.sugar;
  const plan::SugarBoil& boil = *batch.recipe.sugar_boil;
  std::vector<PlannedRow> rows = {
      row(batch, "Water for the sugar, cold", boil.water, "into the " + boil.vessel),
      row(batch, "To the boil in", sugar.heating), row(batch, "Boil for", boil.time),
      row(batch, "Hot syrup", sugar.hot)};
  return subheading("Sugar, boiled apart") + framed(cautions::syrup) +
         table(PlannedTable{"", std::move(rows)});
}

std::string outcome(const plan::WortPlan& wort) {
  switch (wort.top_up.reach) {
    case mash::Reach::reached:
      return {};
    case mash::Reach::already_fuller:
      return "already fuller than wanted";
    case mash::Reach::stays_too_cold:
      return "colder than wanted, even with hot water";
    case mash::Reach::stays_too_hot:
      return "warmer than wanted, even with cold water";
  }
  return {};
}

}  // namespace

Html wort_part(const Batch& batch) {
  const plan::WortPlan& wort = batch.plan.mash.wort;
  const units::Volume drop = units::Volume::millilitres(5.0);
  std::vector<PlannedRow> rows = {
      row(batch, "All together, before topping up", wort.before_topping_up,
          fmt::format("gathered at {}", cell(wort.collected, batch.system)))};
  if (wort.cooling) {
    rows.push_back(row(batch,
                       fmt::format("Cool to {} in", cell(wort.cooling->to, batch.system)),
                       wort.cooling->planned));
  }
  if (wort.top_up.cold > drop) {
    rows.push_back(row(batch, "Top up, cold water", wort.top_up.cold,
                       fmt::format("at {}", cell(batch.kit.liquor.cold, batch.system))));
  }
  if (wort.top_up.hot > drop) {
    rows.push_back(row(batch, "Top up, hot water", wort.top_up.hot,
                       fmt::format("at {}", cell(batch.kit.liquor.hot, batch.system))));
  }
  rows.push_back(row(batch, "The fermenter then holds", wort.fill,
                     wort.solids > units::Mass{} ? "with the grain" : outcome(wort)));
  rows.push_back(row(batch, "at", wort.top_up.temperature));
  rows.push_back(row(batch, "Wort, at 20 °C", wort.volume, "", 1));
  rows.push_back(row(batch, "Original gravity", wort.original_gravity,
                     cell(wort.extract, batch.system), 4));
  return sugar_part(batch) + kept_together(subheading("Into the fermenter") +
                                           table(PlannedTable{"", std::move(rows)}));
}

}  // namespace lynearm::sheet
