// Stripping and spirit run of a plan as JSON: what is charged, one run from cold pot to end
// with its curve, the fractions, and where everything goes.
#include "wire/plan_parts.hpp"
#include "wire/still.hpp"

namespace lynearm::wire {
namespace {

const char* word(still::Ending ending) {
  switch (ending) {
    case still::Ending::spout_strength:
      return "spout_strength";
    case still::Ending::head_temperature:
      return "head_temperature";
    case still::Ending::collected:
      return "collected";
    case still::Ending::least_in_pot:
      return "least_in_pot";
    case still::Ending::time:
      return "time";
    case still::Ending::pot_dry:
      return "pot_dry";
  }
  return "";
}

// The state of a run at one moment, the times counted from the first drop.
Json point_json(const still::Point& point) {
  Json object;
  object["at_min"] = figure(point.since_boiling.minutes());
  object["collected_L_20C"] = figure(point.collected.litres());
  object["collected_percent_vol"] = figure(point.cumulative.percent());
  object["pure_alcohol_L"] = figure(point.pure_alcohol.litres());
  object["spout_percent_vol"] = figure(point.spout.percent());
  object["pot_percent_vol"] = figure(point.pot.percent());
  object["pot_C"] = figure(point.pot_temperature.celsius());
  object["head_C"] = figure(point.head_temperature.celsius());
  object["drawn_kWh"] = figure(point.drawn.kilowatt_hours());
  return object;
}

Json charge_json(const plan::RunPlan& run) {
  Json object;
  object["volume_L_20C"] = figure(run.charge_volume.litres());
  object["strength_percent_vol"] = figure(run.charge_strength.percent());
  object["pure_alcohol_L"] = figure(spirit::pure_alcohol(run.charge.spirit).litres());
  object["extract_kg"] = figure(run.charge.extract.kilograms());
  object["temperature_C"] = figure(run.charge.temperature.celsius());
  object["at_the_boil_L"] = figure(run.volume_at_boil.litres());
  return object;
}

Json heat_up_json(const still::HeatUp& heat_up) {
  Json object;
  object["boiling_C"] = figure(heat_up.boiling.celsius());
  object["length_min"] = figure(heat_up.duration.minutes());
  object["to_charge_kWh"] = figure(heat_up.to_charge.kilowatt_hours());
  object["to_wall_kWh"] = figure(heat_up.to_wall.kilowatt_hours());
  object["drawn_kWh"] = figure(heat_up.drawn.kilowatt_hours());
  return object;
}

Json coolant_json(const plan::CoolantPlan& coolant) {
  const still::Cooling& cooling = coolant.cooling;
  Json object;
  object["heat_kW"] = figure(cooling.heat.kilowatts());
  object["vapour_C"] = figure(cooling.vapour.celsius());
  object["spirit_L_per_h"] = figure(coolant.spirit_flow.litres_per_hour());
  object["flow_L_per_min"] = figure(coolant.flow.litres_per_minute());
  object["leaving_C"] = figure(coolant.leaving.celsius());
  object["least_flow_L_per_min"] = figure(cooling.least_flow.litres_per_minute());
  object["warmest_leaving_C"] = figure(cooling.warmest_leaving.celsius());
  object["flow_enough"] = cooling.flow_enough;
  object["greatest_spirit_L_per_h"] = figure(cooling.greatest_spirit.litres_per_hour());
  object["coldest_spout_C"] = figure(cooling.coldest_spout.celsius());
  object["spout_reachable"] = cooling.spout_reachable;
  object["water_L"] = figure(coolant.water.litres());
  return object;
}

Json fraction_json(const still::Fraction& fraction) {
  Json object;
  object["volume_L_20C"] = figure(fraction.volume.litres());
  object["strength_percent_vol"] = figure(fraction.strength.percent());
  object["pure_alcohol_L"] = figure(fraction.pure_alcohol.litres());
  object["length_min"] = figure(fraction.duration().minutes());
  object["from"] = point_json(fraction.from);
  object["to"] = point_json(fraction.to);
  return object;
}

}  // namespace

Json run_part(const plan::RunPlan& run) {
  Json object;
  object["charge"] = charge_json(run);
  object["heat_up"] = heat_up_json(run.heat_up);
  object["power_kW"] = figure(run.power.kilowatts());
  object["head_reflux_fraction"] =
      figure(run.run.setting.head.fixed_reflux.value_or(run.run.first().back).fraction());
  object["ending"] = word(run.run.ending);
  object["running_min"] = figure(run.run.last().since_boiling.minutes());
  object["length_min"] = figure(run.length.minutes());
  object["energy_kWh"] = figure(run.energy.kilowatt_hours());
  object["distillate"] = gauged(run.run.distillate());
  object["collected"] = gauged(run.collected);
  object["lost"] = gauged(run.lost);
  object["recovered_fraction"] = figure(run.run.recovered().fraction());
  object["left_in_pot_L"] = figure(run.left_in_pot.litres());
  object["left_in_pot"] = gauged(run.run.left());
  object["coolant"] = coolant_json(run.coolant);
  Json curve = Json::array();
  for (const std::size_t i : thinned(run.run.points.size())) {
    curve.push_back(point_json(run.run.points[i]));
  }
  object["curve"] = std::move(curve);
  return object;
}

Json strip_part(const plan::StripPlan& strip) {
  Json object;
  object["caution"] = still_caution;
  object["runs"] = strip.runs;
  object["fill_limit_L"] = figure(strip.fill_limit.litres());
  object["foams"] = strip.foams;
  object["run"] = run_part(strip.one);
  object["low_wines"] = gauged(strip.low_wines);
  object["left_over_L_20C"] = figure(strip.left_over_volume.litres());
  object["left_over"] = masses(strip.left_over);
  object["left_in_pots"] = gauged(strip.left_in_pots);
  object["lost"] = gauged(strip.lost);
  return object;
}

Json spirit_run_part(const plan::SpiritPlan& spirit) {
  Json object;
  object["caution"] = still_caution;
  object["runs"] = spirit.runs;
  object["fill_limit_L"] = figure(spirit.fill_limit.litres());
  Json made_of;
  made_of["low_wines"] = gauged(spirit.low_wines_in);
  made_of["feints"] = gauged(spirit.feints_in);
  made_of["water_kg"] = figure(spirit.water.kilograms());
  made_of["of_a_charge_ratio"] = figure(spirit.of_a_charge);
  object["made_of"] = std::move(made_of);
  object["low_wines_kept"] = gauged(spirit.low_wines_kept);
  object["run"] = run_part(spirit.one);
  Json fractions;
  fractions["foreshots"] = fraction_json(spirit.foreshots);
  fractions["heads"] = fraction_json(spirit.heads);
  fractions["hearts"] = fraction_json(spirit.hearts);
  fractions["tails"] = fraction_json(spirit.tails);
  object["fractions"] = std::move(fractions);
  object["hearts"] = gauged(spirit.hearts_all);
  object["foreshots_away"] = gauged(spirit.foreshots_away);
  object["heads_away"] = gauged(spirit.heads_away);
  object["feints_kept"] = gauged(spirit.feints_kept);
  object["left_in_pots"] = gauged(spirit.left_in_pots);
  object["lost"] = gauged(spirit.lost);
  return object;
}

}  // namespace lynearm::wire
