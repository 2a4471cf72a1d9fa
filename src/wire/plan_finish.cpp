// From the hearts to the bottle as JSON: reduction, wood, bottles.
#include "base/error.hpp"
#include "wire/plan_parts.hpp"
#include "wood/extraction.hpp"

namespace lynearm::wire {

Json reduce_part(const plan::ReducePlan& reduce) {
  Json object;
  object["hearts"] = gauged(reduce.hearts);
  object["moved_loss"] = gauged(reduce.moved_loss);
  object["water_kg"] = figure(reduce.water.kilograms());
  object["water_L"] = figure(reduce.water_volume.litres());
  object["result"] = gauged(reduce.result);
  object["contraction_L_20C"] = figure(reduce.contraction.litres());
  return object;
}

Json wood_part(const plan::Recipe& recipe, const plan::WoodPlan& wood) {
  base::ensure(recipe.wood.has_value(), "wood has its step in the recipe");
  Json object;
  object["caution"] = wood::extraction_caution;
  object["in"] = wood.in;
  if (wood.staves > 0) object["staves"] = wood.staves;
  object["species"] = recipe.wood->species;
  object["toast"] = recipe.wood->toast;
  object["resting_C"] = figure(recipe.wood->temperature.celsius());
  object["filled_L_20C"] = figure(wood.filled.litres());
  object["into_wood"] = gauged(wood.into_wood);
  object["beyond_cask"] = gauged(wood.beyond_cask);
  object["surface_cm2_per_L"] = figure(wood.surface.square_centimetres_per_litre());
  object["times_a_200L_cask_ratio"] = figure(wood.times_a_200L_cask);
  object["time_days"] = figure(wood.time.days());
  object["extract_fraction"] = figure(wood.extract.fraction());
  object["extract_doubt_fraction"] = figure(wood::extraction_doubt.fraction());
  if (wood.like_cask_years) {
    object["extract_of_200L_cask_years"] = figure(wood.like_cask_years->years());
  }
  Json days = Json::array();
  for (const units::Duration& day : wood.sampling_days) days.push_back(figure(day.days()));
  object["sampling_days"] = std::move(days);
  object["each_sample_mL"] = figure(wood.each_sample.millilitres());
  object["samples"] = gauged(wood.samples);
  object["soaked"] = gauged(wood.soaked);
  object["evaporated_volume_L_20C"] = figure(wood.evaporated_volume.litres());
  object["evaporated_pure_alcohol_L"] = figure(spirit::pure_alcohol(wood.evaporated).litres());
  object["matured"] = gauged(wood.matured);
  return object;
}

Json bottle_part(const plan::BottlePlan& bottle) {
  Json object;
  object["moved_loss"] = gauged(bottle.moved_loss);
  object["filter_loss"] = gauged(bottle.filter_loss);
  object["water_kg"] = figure(bottle.water.kilograms());
  object["volume_L_20C"] = figure(bottle.volume.litres());
  object["strength_percent_vol"] = figure(bottle.strength.percent());
  object["bottles"] = bottle.bottles;
  object["size_mL"] = figure(bottle.size.millilitres());
  object["in_bottles"] = gauged(bottle.in_bottles);
  object["remainder"] = gauged(bottle.remainder);
  return object;
}

}  // namespace lynearm::wire
