// Mash bill and mash day in text: what is weighed out, temperatures and volumes step by step,
// the water that mends a miss, run-offs.
#include <fmt/format.h>

#include "cli/plan_text_parts.hpp"
#include "wort/gravity.hpp"

namespace lynearm::cli::planned {
namespace {

void add_cook(const Batch& batch, const plan::CookPlan& cook, std::vector<Line>& rows) {
  const plan::Cook& step = *batch.recipe.mash.cook;
  rows.push_back({"Cook water, cold", batch.print(step.water), "",
                  fmt::format("into the {}, with the grain to cook", step.vessel)});
  rows.push_back({"To the boil", batch.print(cook.cooked.time_to_boil), "", "stirring"});
  rows.push_back({"Cook at the boil", batch.print(step.time), "",
                  fmt::format("the pot then holds {}", batch.print(cook.cooked.at_the_boil))});
  if (batch.recipe.mash.water > units::Volume{}) {
    rows.push_back(
        {"Water already in it", batch.print(batch.recipe.mash.water), "",
         fmt::format("at {}", batch.print(batch.recipe.mash.water_temperature.value_or(
                                  batch.kit.liquor.cold)))});
  }
  rows.push_back(principal(
      batch, "landing_temperature_C", "It lands at",
      fmt::format("moved to the {} within {}, and fills it to {}", batch.recipe.mash.vessel,
                  batch.print(cook.moving), batch.print(cook.landed.volume))));
  if (cook.cooling) rows.push_back(cooling_line(batch, *cook.cooling));
  if (cook.heating) {
    rows.push_back({fmt::format("Warm to {}", batch.print(batch.plan.mash.mash->dough_in)),
                    batch.print(*cook.heating), "", "stirring"});
  }
}

std::string steps(const Batch& batch, const plan::MashPlan& mash) {
  std::vector<Line> rows;
  if (mash.cook) {
    add_cook(batch, *mash.cook, rows);
  } else {
    rows.push_back({"Mash water, cold", batch.print(batch.recipe.mash.water), "",
                    fmt::format("into the {}", batch.recipe.mash.vessel)});
    if (mash.heating_strike) {
      rows.push_back({fmt::format("Warm to {}", batch.print(mash.dough_in)),
                      batch.print(*mash.heating_strike)});
    }
  }
  rows.push_back(principal(batch, "dough_in_temperature_C", "Malts go in at",
                           "stirred in dry, a little at a time, no lumps"));
  rows.push_back({"and settle at", batch.print(mash.doughed_in.temperature), "",
                  fmt::format("the {} is then at its fullest, {}", batch.recipe.mash.vessel,
                              batch.print(mash.fullest))});
  rows.push_back({"Rest", batch.print(batch.recipe.mash.rest_time), "",
                  fmt::format("lid on; it drifts to {}", batch.print(mash.rested.end))});
  return lines(rows);
}

std::string corrections(const Batch& batch, const plan::MashPlan& mash) {
  if (mash.corrections.empty()) return {};
  std::vector<std::vector<std::string>> rows;
  bool short_of_room = false;
  for (const plan::CorrectionLine& line : mash.corrections) {
    const mash::Correction& mend = line.correction;
    if (mend.with == mash::Mend::nothing) {
      rows.push_back({batch.print(line.reading), "nothing", "", "", "", ""});
      continue;
    }
    short_of_room = short_of_room || mend.room_is_short;
    rows.push_back(
        {batch.print(line.reading), mend.with == mash::Mend::hot_water ? "hot" : "cold",
         batch.print(mend.first_half), batch.print(mend.after_first), batch.print(mend.at_most),
         batch.print(mend.reached) + (mend.room_is_short ? " *" : "")});
  }
  std::string text = "\n";
  text += paragraph(fmt::format(
      "It should settle at {}. If it reads otherwise, stir to the bottom, read again, "
      "and mend it in two halves (hot water {}, cold {}):",
      batch.print(batch.recipe.mash.rest_temperature), batch.print(batch.kit.liquor.hot),
      batch.print(batch.kit.liquor.cold)));
  text += grid({{"it reads"},
                {"water", Side::left},
                {"first half"},
                {"then expect"},
                {"in all at most"},
                {"it reaches"}},
               rows);
  return text +
         paragraph(fmt::format("{}Between the halves stir, wait {} and read: what was poured "
                               "in cannot be taken out.",
                               short_of_room ? "* as far as there is room. " : "",
                               batch.print(mash::wait_between_halves)));
}

std::string name_of(const mash::RunOff& run_off, std::size_t sparge) {
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

std::string run_offs(const Batch& batch, const plan::MashPlan& mash) {
  if (!mash.drained) return paragraph("It is not drained: it ferments on the grain.");
  std::vector<std::vector<std::string>> rows;
  std::size_t sparge = 0;
  for (const mash::RunOff& run_off : mash.drained->run_offs) {
    std::string given;
    if (run_off.kind == mash::RunOffKind::sparge) {
      const plan::Sparge& step = batch.recipe.mash.sparges.at(sparge++);
      given = fmt::format("{} at {}", batch.print(step.water), batch.print(step.temperature));
    }
    rows.push_back({name_of(run_off, sparge), given, batch.print(run_off.volume),
                    batch.print(wort::specific_gravity(run_off.wort)),
                    batch.print(run_off.gained), batch.in_the_jar(run_off.spirit)});
  }
  std::string text = "\n";
  text += grid({{"Run-off", Side::left},
                {"water given", Side::left},
                {"volume"},
                {"gravity"},
                {"of the extract"},
                {"worth, pure alcohol"}},
               rows);
  return text +
         paragraph(fmt::format(
             "Together {} with {} of the extract. The gravity of the first runnings tells "
             "whether it converted; leave off when a sparge is not worth its time.",
             batch.print(mash.drained->volume), batch.print(mash.drained->efficiency)));
}

}  // namespace

std::string mash_part(const Batch& batch) {
  if (!batch.plan.mash.mash) return {};
  const plan::MashPlan& mash = *batch.plan.mash.mash;
  std::string text =
      heading("Mash", batch.look) + caution_of(sheet::cautions::hot_porridge, batch.look);
  text += steps(batch, mash) + corrections(batch, mash);
  text += "\n";
  text +=
      paragraph(fmt::format("In the rest {} of the starch converts. A drop of iodine on clear "
                            "liquor, no husks in it, "
                            "stays brown when it is done.",
                            batch.print(mash.rested.converted)));
  return text + run_offs(batch, mash);
}

}  // namespace lynearm::cli::planned
