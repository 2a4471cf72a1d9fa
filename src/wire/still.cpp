#include "wire/still.hpp"

#include "spirit/lot.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {

std::string stripping_json(const still::Run& run, units::Pressure pressure) {
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
  object["heat_from_boil_kWh"] = figure(end.into_pot.kilowatt_hours());
  object["wash_volume_L_20C"] = figure(spirit::volume(run.charge.spirit).litres());
  object["wash_percent_vol"] = figure(spirit::strength(run.charge.spirit).percent());
  object["head_reflux_fraction"] = figure(run.setting.head_reflux.fraction());
  object["pressure_kPa"] = figure(pressure.kilopascals());
  object["caution"] = still_caution;
  return object.dump();
}

}  // namespace lynearm::wire
