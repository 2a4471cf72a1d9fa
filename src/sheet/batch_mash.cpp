// Mash day on paper: cook, landing, malts, the correction at hand, the rest, draining.
#include <fmt/format.h>

#include <algorithm>

#include "sheet/batch_parts.hpp"
#include "sheet/batch_pictures.hpp"

namespace lynearm::sheet {
namespace {

std::vector<PlannedRow> cook_rows(const Batch& batch, const plan::CookPlan& cook) {
  const plan::Cook& step = *batch.recipe.mash.cook;
  std::vector<PlannedRow> rows = {
      row(batch, "Cook water, cold", step.water, "into the " + step.vessel),
      row(batch, "To the boil in", cook.cooked.time_to_boil),
      row(batch, "Cook at the boil for", step.time),
      row(batch, "Pot at the boil holds", cook.cooked.at_the_boil,
          cook.cooked.headspace > units::Volume{}
              ? fmt::format("{} below the brim", cell(cook.cooked.headspace, batch.system))
              : std::string("more than the pot"),
          std::nullopt, false)};
  if (batch.recipe.mash.water > units::Volume{}) {
    rows.push_back(row(batch, "Water already in the mash vessel", batch.recipe.mash.water,
                       fmt::format("at {}", cell(batch.recipe.mash.water_temperature.value_or(
                                                     batch.kit.liquor.cold),
                                                 batch.system))));
  }
  rows.push_back(row(batch, "Lands in the mash vessel at", cook.landed.contents.temperature,
                     fmt::format("moved within {}", cell(cook.moving, batch.system))));
  rows.push_back(row(batch, "and fills it to", cook.landed.volume));
  if (cook.heating)
    rows.push_back(row(batch, "Heat to the malts' temperature in", *cook.heating));
  return rows;
}

std::vector<PlannedRow> infusion_rows(const Batch& batch, const plan::MashPlan& mash) {
  std::vector<PlannedRow> rows = {row(batch, "Mash water, cold", batch.recipe.mash.water,
                                      "into the " + batch.recipe.mash.vessel)};
  if (mash.heating_strike) {
    rows.push_back(row(batch, "To the malts' temperature in", *mash.heating_strike));
  }
  return rows;
}

// How long to the temperature of the malts, by each way the vessel has.
void add_cooling(const Batch& batch, const plan::CoolingPlan& cooling,
                 std::vector<PlannedRow>& rows) {
  std::string ways;
  const auto way = [&](const char* name, units::Duration time) {
    if (time <= units::Duration{}) return;
    ways += fmt::format("{}{} {}", ways.empty() ? "" : ", ", name, cell(time, batch.system));
  };
  way("lid on", cooling.lid_on);
  if (cooling.lid_off) way("lid off", *cooling.lid_off);
  if (cooling.with_coil) way("with the coil", *cooling.with_coil);
  rows.push_back(row(batch, fmt::format("Cool to {} in", cell(cooling.to, batch.system)),
                     cooling.planned, ways));
}

Html mash_table(const Batch& batch, const plan::MashPlan& mash) {
  std::vector<PlannedRow> rows =
      mash.cook ? cook_rows(batch, *mash.cook) : infusion_rows(batch, mash);
  if (mash.cook && mash.cook->cooling) add_cooling(batch, *mash.cook->cooling, rows);
  rows.push_back(row(batch, "Malts go in at", mash.dough_in, "stirred in dry, no lumps"));
  rows.push_back(row(batch, "and settle at", batch.recipe.mash.rest_temperature));
  rows.push_back(row(batch, "Rest for", batch.recipe.mash.rest_time));
  rows.push_back(row(batch, "Drifts by the end to", mash.rested.end));
  const plan::Vessel* vessel = batch.kit.vessel(batch.recipe.mash.vessel);
  rows.push_back(row(
      batch, "Vessel at its fullest", mash.fullest,
      vessel == nullptr ? std::string{}
                        : fmt::format("working volume {}", cell(vessel->working, batch.system)),
      std::nullopt, false));
  rows.push_back(fixed_row(batch, "Starch converted in the rest", mash.rested.converted));
  rows.push_back(row(batch, "Extract made", mash.extract_made, "", std::nullopt, false));
  return table(PlannedTable{"Planned and measured", std::move(rows)});
}

Html correction_table(const Batch& batch, const plan::MashPlan& mash) {
  if (mash.corrections.empty()) return {};
  const units::System system = batch.system;
  Table table_of{
      .caption = fmt::format("Off {}? Stir, read, and give the first half of the water",
                             cell(batch.recipe.mash.rest_temperature, system)),
      .columns = {{"It reads", Align::right},
                  {"stir in", Align::left},
                  {"first half", Align::right},
                  {"expect then", Align::right},
                  {"in all at most", Align::right},
                  {"reaches", Align::right},
                  {"given", Align::left, 14}},
      .rows = {}};
  units::Volume most;
  for (const plan::CorrectionLine& line : mash.corrections) {
    most = std::max(most, line.correction.at_most);
  }
  const std::string none(no_figure);
  for (const plan::CorrectionLine& line : mash.corrections) {
    const mash::Correction& mend = line.correction;
    if (mend.with == mash::Mend::nothing) {
      table_of.rows.push_back({cell(line.reading, system), "nothing", none, none, none,
                               cell(line.reading, system), ""});
      continue;
    }
    table_of.rows.push_back(
        {cell(line.reading, system),
         mend.with == mash::Mend::hot_water ? "hot\u00a0water" : "cold\u00a0water",
         in_one_unit(mend.first_half, most, system), cell(mend.after_first, system),
         in_one_unit(mend.at_most, most, system) +
             (mend.room_is_short ? " (room is short)" : ""),
         cell(mend.reached, system), ""});
  }
  return table(table_of) +
         small_print(fmt::format(
             "Hot water is {}, cold {}. After the first half stir, wait {}, read again; go by "
             "that reading. What was poured in cannot be taken out.",
             cell(batch.kit.liquor.hot, system), cell(batch.kit.liquor.cold, system),
             cell(mash::wait_between_halves, system)));
}

std::string name_of(const mash::RunOff& run_off, int sparge) {
  switch (run_off.kind) {
    case mash::RunOffKind::first_runnings:
      return "first runnings";
    case mash::RunOffKind::sparge:
      return fmt::format("sparge {}", sparge);
    case mash::RunOffKind::squeeze:
      return "squeeze";
  }
  return "";
}

Html run_off_table(const Batch& batch, const plan::MashPlan& mash) {
  if (!mash.drained) {
    return paragraph("Not drained: the mash ferments on the grain.");
  }
  const units::System system = batch.system;
  Table run_offs{.caption = "Run-offs, at 20 °C",
                 .columns = {{"", Align::left},
                             {"water", Align::right},
                             {"at", Align::right},
                             {"volume", Align::right},
                             {"gravity", Align::right},
                             {"of the extract", Align::right},
                             {"worth, pure alcohol", Align::right},
                             {"volume read", Align::left, 11},
                             {"gravity read", Align::left, 11}},
                 .rows = {}};
  int sparge = 0;
  for (const mash::RunOff& run_off : mash.drained->run_offs) {
    std::string water(no_figure);
    std::string warmth(no_figure);
    if (run_off.kind == mash::RunOffKind::sparge) {
      const auto i = static_cast<std::size_t>(sparge++);
      if (i < batch.recipe.mash.sparges.size()) {
        const plan::Sparge& given = batch.recipe.mash.sparges[i];
        water = cell(given.water, system);
        warmth = cell(given.temperature, system);
      }
    }
    run_offs.rows.push_back(
        {tight(name_of(run_off, sparge)), water, warmth, cell(run_off.volume, system),
         units::print(wort::specific_gravity(run_off.wort)), cell(run_off.gained, system),
         in_one_unit(run_off.spirit, mash.drained->run_offs.front().spirit, system), "", ""});
  }
  return table(run_offs) +
         small_print(fmt::format(
             "Together {} with {} of the extract; the last two columns are for what you "
             "measure. Stop when a sparge is not worth its time.",
             cell(mash.drained->volume, system), cell(mash.drained->efficiency, system)));
}

}  // namespace

Html mash_part(const Batch& batch) {
  if (!batch.plan.mash.mash) return {};
  const plan::MashPlan& mash = *batch.plan.mash.mash;
  Html part = heading("Mash") + framed(cautions::hot_porridge) + enzymes(batch);
  if (mash.course.size() > 1) {
    part += figure(mash_picture(mash, batch.system), "Planned course; draw your readings in.");
  }
  part += mash_table(batch, mash) + correction_table(batch, mash);
  part += checklist({"Stirred to the bottom before each reading",
                     "Iodine on clear liquor without husks: no blue",
                     "Gravity of the first runnings against the table; gravity decides"});
  return part + run_off_table(batch, mash);
}

}  // namespace lynearm::sheet
