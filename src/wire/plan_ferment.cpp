// From the boiled sugar and the wort to the clear wash, as JSON.
#include "base/error.hpp"
#include "wire/plan_parts.hpp"
#include "wort/gravity.hpp"

namespace lynearm::wire {
namespace {

const char* word(mash::Reach reach) {
  switch (reach) {
    case mash::Reach::reached:
      return "reached";
    case mash::Reach::already_fuller:
      return "already_fuller";
    case mash::Reach::stays_too_cold:
      return "stays_too_cold";
    case mash::Reach::stays_too_hot:
      return "stays_too_hot";
  }
  return "";
}

const char* word(ferment::Ending ending) {
  switch (ending) {
    case ferment::Ending::dry:
      return "dry";
    case ferment::Ending::slow:
      return "slow";
    case ferment::Ending::stuck:
      return "stuck";
  }
  return "";
}

Json top_up_json(const mash::TopUp& top_up) {
  Json object;
  object["reach"] = word(top_up.reach);
  object["cold_L"] = figure(top_up.cold.litres());
  object["hot_L"] = figure(top_up.hot.litres());
  object["temperature_C"] = figure(top_up.temperature.celsius());
  object["volume_L"] = figure(top_up.volume.litres());
  return object;
}

Json made_json(const ferment::Fermented& made) {
  Json object;
  object["hexose_fermented_kg"] = figure(made.hexose_fermented.kilograms());
  object["water_taken_up_kg"] = figure(made.water_taken_up.kilograms());
  object["glycerol_kg"] = figure(made.glycerol.kilograms());
  object["acids_kg"] = figure(made.acids.kilograms());
  object["yeast_grown_kg"] = figure(made.yeast.kilograms());
  object["sugar_left_kg"] = figure(made.sugar_left.kilograms());
  return object;
}

Json gas_json(const plan::FermentPlan& ferment) {
  Json object;
  object["mass_kg"] = figure(ferment.fermented.carbon_dioxide.kilograms());
  object["volume_L"] = figure(ferment.carbon_dioxide.litres());
  object["peak_L_per_h"] = figure(ferment.peak_carbon_dioxide.litres_per_hour());
  object["peak_at_h"] = figure(ferment.pace.peak_at.hours());
  if (ferment.room_at_peak) {
    object["room_at_peak_fraction"] = figure(ferment.room_at_peak->fraction());
  }
  object["fresh_air_m3_per_h"] = figure(ferment.fresh_air.litres_per_hour() / 1000.0);
  return object;
}

Json nitrogen_json(const plan::Recipe& recipe, const ferment::Nutrition& nutrition) {
  Json object;
  object["need_mg_per_L"] = figure(nutrition.need.milligrams_per_litre());
  object["supply_mg_per_L"] = figure(nutrition.supply.milligrams_per_litre());
  object["shortfall_mg_per_L"] = figure(nutrition.shortfall.milligrams_per_litre());
  object["added_mg_per_L"] = figure(recipe.ferment.nutrient_nitrogen.milligrams_per_litre());
  object["supply_g"] = figure(nutrition.nitrogen.grams());
  object["diammonium_phosphate_g"] = figure(nutrition.diammonium_phosphate.grams());
  return object;
}

Json course_json(const std::vector<ferment::PacePoint>& course) {
  Json list = Json::array();
  for (const std::size_t i : thinned(course.size())) {
    const ferment::PacePoint& point = course[i];
    Json one;
    one["at_h"] = figure(point.at.hours());
    one["done_fraction"] = figure(point.done.fraction());
    one["sugar_g_per_L"] = figure(point.sugar.grams_per_litre());
    one["ethanol_g_per_L"] = figure(point.ethanol.grams_per_litre());
    one["gravity"] = figure(point.gravity.ratio());
    one["carbon_dioxide_L_per_h"] = figure(point.carbon_dioxide.litres_per_hour());
    one["temperature_C"] = figure(point.temperature.celsius());
    list.push_back(std::move(one));
  }
  return list;
}

Json pace_json(const ferment::Pace& pace) {
  Json object;
  object["ending"] = word(pace.ending);
  if (pace.dry_after) object["dry_after_days"] = figure(pace.dry_after->days());
  object["done_fraction"] = figure(pace.done.fraction());
  object["sugar_left_g_per_L"] = figure(pace.sugar_left.grams_per_litre());
  object["course"] = course_json(pace.course);
  return object;
}

}  // namespace

Json cooling_part(const plan::CoolingPlan& cooling) {
  Json object;
  object["from_C"] = figure(cooling.from.celsius());
  object["to_C"] = figure(cooling.to.celsius());
  object["planned_min"] = figure(cooling.planned.minutes());
  object["lid_on_min"] = figure(cooling.lid_on.minutes());
  if (cooling.lid_off) object["lid_off_min"] = figure(cooling.lid_off->minutes());
  if (cooling.with_coil) object["with_coil_min"] = figure(cooling.with_coil->minutes());
  return object;
}

Json sugar_boil_part(const plan::Recipe& recipe, const plan::SugarPlan& sugar) {
  base::ensure(recipe.sugar_boil.has_value(), "boiled sugar has its step in the recipe");
  Json object;
  object["vessel"] = recipe.sugar_boil->vessel;
  object["water_L"] = figure(recipe.sugar_boil->water.litres());
  object["boil_min"] = figure(recipe.sugar_boil->time.minutes());
  object["to_the_boil_min"] = figure(sugar.heating.minutes());
  object["hot_L"] = figure(sugar.hot.litres());
  object["boiled_away_L_20C"] = figure(sugar.boiled_away.litres());
  object["water_kg"] = figure(sugar.wort.water.kilograms());
  object["extract_kg"] = figure(sugar.wort.extract.kilograms());
  object["extract_plato"] = figure(wort::plato(sugar.wort).degrees());
  object["energy_kWh"] = figure(sugar.energy.kilowatt_hours());
  return object;
}

Json wort_part(const plan::WortPlan& wort) {
  Json object;
  object["before_topping_up_L"] = figure(wort.before_topping_up.litres());
  object["collected_C"] = figure(wort.collected.celsius());
  if (wort.cooling) object["cooling"] = cooling_part(*wort.cooling);
  object["top_up"] = top_up_json(wort.top_up);
  object["volume_L_20C"] = figure(wort.volume.litres());
  object["fill_L"] = figure(wort.fill.litres());
  object["original_gravity"] = figure(wort.original_gravity.ratio());
  object["extract_plato"] = figure(wort.extract.degrees());
  object["water_kg"] = figure(wort.whole.water.kilograms());
  object["extract_kg"] = figure(wort.whole.extract.kilograms());
  object["extract_from_malt_kg"] = figure(wort.extract_from_malt.kilograms());
  object["extract_from_raw_grain_kg"] = figure(wort.extract_from_raw_grain.kilograms());
  object["extract_from_sugar_kg"] = figure(wort.extract_from_sugar.kilograms());
  object["solids_kg"] = figure(wort.solids.kilograms());
  object["fermentable_fraction"] = figure(wort.fermentable.fraction());
  object["hexose_per_gram"] = figure(wort.hexose_per_gram);
  return object;
}

Json ferment_part(const plan::Recipe& recipe, const plan::FermentPlan& ferment) {
  Json object;
  object["vessel"] = recipe.ferment.vessel;
  object["pitch_C"] = figure(recipe.ferment.pitch_temperature.celsius());
  object["yeast"] = recipe.ferment.yeast;
  object["yeast_g"] = figure(ferment.yeast.grams());
  object["original_gravity"] = figure(ferment.original_gravity.ratio());
  object["final_gravity"] = figure(ferment.final_gravity.ratio());
  object["apparent_attenuation_fraction"] = figure(ferment.apparent_attenuation.fraction());
  object["strength_percent_vol"] = figure(ferment.strength.percent());
  object["alcohol_by_mass_fraction"] = figure(ferment.alcohol_by_mass.fraction());
  object["volume_L_20C"] = figure(ferment.volume.litres());
  object["wash"] = masses(ferment.fermented.wash);
  object["made"] = made_json(ferment.fermented);
  object["nitrogen"] = nitrogen_json(recipe, ferment.nutrition);
  object["carbon_dioxide"] = gas_json(ferment);
  Json heat;
  heat["heat_kWh"] = figure(ferment.heat.kilowatt_hours());
  heat["adiabatic_rise_K"] = figure(ferment.adiabatic_rise.kelvins());
  heat["rise_K"] = figure(ferment.rise.kelvins());
  heat["warmest_C"] = figure(ferment.pace.warmest.celsius());
  object["heat"] = std::move(heat);
  object["pace"] = pace_json(ferment.pace);
  object["ready_after_days"] = figure(ferment.ready_after.days());
  object["racked_volume_L_20C"] = figure(ferment.racked_volume.litres());
  object["racked"] = masses(ferment.racked);
  object["lees"] = masses(ferment.lees);
  object["solids_kg"] = figure(ferment.solids.kilograms());
  return object;
}

}  // namespace lynearm::wire
