#include "wire/still.hpp"

#include "spirit/lot.hpp"
#include "vapour/congener.hpp"
#include "wire/air_parts.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {
namespace {

using Air = std::optional<still::TodaysAir>;

// A temperature once more, as the day's thermometer shows it.
void put_shown(Json& object, const char* key, units::Temperature truly, const Air& air) {
  if (air) object[key] = figure(air->as_shown(truly).celsius());
}

Json curve_json(const still::ToldRun& told, const Air& air) {
  Json curve = Json::array();
  const bool congeners = told.run.charge.congeners.has_value();
  for (const still::Step& step : told.curve) {
    const still::Point& point = step.point;
    Json row;
    row["collected_volume_L_20C"] = figure(point.collected.litres());
    row["spout_percent_vol"] = figure(point.spout.percent());
    row["cumulative_percent_vol"] = figure(point.cumulative.percent());
    row["pot_percent_vol"] = figure(point.pot.percent());
    row["pot_temperature_C"] = figure(point.pot_temperature.celsius());
    row["head_temperature_C"] = figure(point.head_temperature.celsius());
    row["minutes"] = figure(point.since_start.minutes());
    row["flow_L_per_h"] = figure(point.flow.litres_per_hour());
    row["head_reflux_fraction"] = figure(point.back.fraction());
    row["spirit_temperature_C"] = figure(step.spout.exchange.spirit.celsius());
    row["coolant_out_C"] = figure(step.spout.exchange.coolant.celsius());
    // A hydrometer's scale ends at nought.
    const bool on_the_scale = step.spout.shown && step.spout.shown->figure >= 0.0;
    row["shown_percent_vol"] = on_the_scale ? figure(step.spout.shown->figure) : Json();
    put_shown(row, "pot_shown_C", point.pot_temperature, air);
    put_shown(row, "head_shown_C", point.head_temperature, air);
    if (congeners) {
      row["early_g"] = figure(step.came.early_g);
      row["middle_g"] = figure(step.came.middle_g);
      row["late_g"] = figure(step.came.late_g);
    }
    curve.push_back(std::move(row));
  }
  return curve;
}

Json load_json(const still::Load& load) {
  return {{"g", figure(load.mass.grams())},
          {"low_g", figure(load.low.grams())},
          {"high_g", figure(load.high.grams())}};
}

Json jars_json(const still::ToldRun& told, const Air& air) {
  Json jars = Json::array();
  for (const still::JarRow& row : told.jars) {
    Json jar;
    jar["label"] = row.jar.label;
    jar["volume_L_20C"] = figure(row.jar.volume.litres());
    jar["percent_vol"] = figure(row.jar.strength.percent());
    jar["minutes"] = figure((row.to.since_start - row.from.since_start).minutes());
    jar["head_temperature_C"] = figure(row.to.head_temperature.celsius());
    put_shown(jar, "head_shown_C", row.to.head_temperature, air);
    if (row.jar.early) jar["early"] = load_json(*row.jar.early);
    if (row.jar.middle) jar["middle"] = load_json(*row.jar.middle);
    if (row.jar.late) jar["late"] = load_json(*row.jar.late);
    jars.push_back(std::move(jar));
  }
  return jars;
}

Json part_json(const still::ToldRun& told, const still::Part& part, const Air& air) {
  const still::Fraction& fraction = part.fraction;
  Json object;
  object["name"] = part.name;
  object["volume_L_20C"] = figure(fraction.volume.litres());
  object["percent_vol"] = figure(fraction.strength.percent());
  object["pure_alcohol_L_20C"] = figure(fraction.pure_alcohol.litres());
  object["from_percent_vol"] = figure(fraction.from.spout.percent());
  object["to_percent_vol"] = figure(fraction.to.spout.percent());
  object["to_head_temperature_C"] = figure(fraction.to.head_temperature.celsius());
  put_shown(object, "to_head_shown_C", fraction.to.head_temperature, air);
  object["minutes"] = figure(fraction.duration().minutes());
  if (!part.congeners) return object;
  Json all = Json::array();
  for (std::size_t c = 0; c < part.congeners->grams.size(); ++c) {
    const double grams = part.congeners->grams[c];
    const double charged = told.run.charge.congeners->grams[c];
    const double hL = fraction.pure_alcohol.litres() / 100.0;
    Json row;
    row["id"] = vapour::congeners()[c].id;
    row["g"] = figure(grams);
    row["g_per_hL_pure_alcohol"] = hL > 0.0 ? figure(grams / hL) : Json();
    row["recovered_fraction"] = charged > 0.0 ? figure(grams / charged) : Json();
    all.push_back(std::move(row));
  }
  object["congeners"] = std::move(all);
  return object;
}

// What drove the run.
Json setting_json(const still::ToldRun& told) {
  const still::RunSetting& setting = told.run.setting;
  Json object;
  object["power_W"] = figure(setting.heating.power.watts());
  if (setting.head.fixed_reflux) {
    object["head_reflux_fraction"] = figure(setting.head.fixed_reflux->fraction());
  } else {
    object["head_loss_W_per_K"] = figure(setting.head.loss.watts_per_kelvin());
    object["head_cooling_W"] = figure(setting.head.cooling.watts());
  }
  object["plates"] = setting.head.plates;
  object["coil_holds_mL"] = figure(setting.hold_up.condenser.millilitres());
  object["parrot_holds_mL"] = figure(setting.hold_up.parrot.millilitres());
  object["coolant_inlet_C"] = figure(told.coolant.inlet.celsius());
  object["coolant_L_per_min"] = figure(told.coolant.flow.litres_per_minute());
  object["condenser_W_per_K"] = figure(told.conductance.watts_per_kelvin());
  return object;
}

}  // namespace

std::string stripping_json(const still::Run& run, units::Pressure pressure, const Air& air) {
  const still::Point& end = run.last();
  Json object;
  object["low_wines_volume_L_20C"] = figure(end.collected.litres());
  object["low_wines_percent_vol"] = figure(end.cumulative.percent());
  object["alcohol_recovered_fraction"] = figure(run.recovered().fraction());
  object["pot_left_percent_vol"] = figure(end.pot.percent());
  object["pot_left_volume_L_20C"] = figure(spirit::volume(run.left()).litres());
  object["pure_alcohol_L_20C"] = figure(end.pure_alcohol.litres());
  object["first_drop_percent_vol"] = figure(run.first().spout.percent());
  object["last_drop_percent_vol"] = figure(end.spout.percent());
  object["pot_temperature_first_C"] = figure(run.first().pot_temperature.celsius());
  object["pot_temperature_last_C"] = figure(end.pot_temperature.celsius());
  put_shown(object, "pot_first_shown_C", run.first().pot_temperature, air);
  put_shown(object, "pot_last_shown_C", end.pot_temperature, air);
  object["heat_from_boil_kWh"] = figure(end.into_pot.kilowatt_hours());
  object["wash_volume_L_20C"] = figure(spirit::volume(run.charge.spirit).litres());
  object["wash_percent_vol"] = figure(spirit::strength(run.charge.spirit).percent());
  object["head_reflux_fraction"] =
      figure(run.setting.head.fixed_reflux.value_or(run.first().back).fraction());
  object["pressure_kPa"] = figure(pressure.kilopascals());
  object["caution"] = still_caution;
  if (air) object["todays_air"] = air_json(*air);
  return object.dump();
}

std::string spirit_json(const still::ToldRun& told, const Air& air,
                        const std::vector<std::string>& findings) {
  const still::Run& run = told.run;
  const still::Point& end = run.last();
  Json object;
  object["curve"] = curve_json(told, air);
  object["collected_volume_L_20C"] = figure(end.collected.litres());
  object["collected_percent_vol"] = figure(end.cumulative.percent());
  object["pure_alcohol_L_20C"] = figure(end.pure_alcohol.litres());
  object["alcohol_recovered_fraction"] = figure(run.recovered().fraction());
  object["first_drop_percent_vol"] = figure(run.first().spout.percent());
  object["last_drop_percent_vol"] = figure(end.spout.percent());
  object["pot_left_volume_L_20C"] = figure(spirit::volume(run.left() - end.held).litres());
  object["pot_left_percent_vol"] = figure(end.pot.percent());
  object["ending"] = still::words(run.ending);
  object["minutes_to_boil"] = figure(run.boiling.minutes());
  object["minutes_to_first_drop"] = figure(run.first().since_start.minutes());
  object["minutes"] = figure(end.since_start.minutes());
  object["drawn_kWh"] = figure((run.drawn_to_boil + end.drawn).kilowatt_hours());
  object["warmest_spirit_C"] = figure(still::warmest_spirit(told).celsius());
  object["vapour_escaping_fraction"] = figure(still::most_escaping(told).fraction());
  Json parts = Json::array();
  for (const still::Part& part : told.parts) parts.push_back(part_json(told, part, air));
  object["fractions"] = std::move(parts);
  if (!told.jars.empty()) object["jars"] = jars_json(told, air);
  object["charge_volume_L_20C"] = figure(spirit::volume(run.charge.spirit).litres());
  object["charge_percent_vol"] = figure(spirit::strength(run.charge.spirit).percent());
  object["setting"] = setting_json(told);
  object["pressure_kPa"] = figure(told.pressure.kilopascals());
  object["cautions"] = {still_caution, spirit_caution, foreshots_caution};
  object["findings"] = findings;
  if (air) object["todays_air"] = air_json(*air);
  return object.dump();
}

}  // namespace lynearm::wire
