// The batches of the Tern Island still house (invented) as values, for tests that need a whole
// recipe and kit without reading files.
#pragma once

#include "plan/kit.hpp"
#include "plan/process.hpp"
#include "plan/recipe.hpp"

namespace lynearm::plan::tern {

inline Kit kit_8() {
  using namespace units;
  const ProcessDefaults& defaults = process_defaults();
  Kit kit;
  kit.name = "Tern Island still house, the long room";
  kit.place.pressure = Pressure::hectopascals(1011.8);
  kit.place.ambient = Temperature::celsius(18.0);
  kit.place.ferment_room = Volume::cubic_metres(60.0);
  kit.place.humidity = Share::percent(70.0);
  kit.liquor = {Temperature::celsius(12.0), Temperature::celsius(90.0)};
  Vessel pot;
  pot.name = "boiling pot";
  pot.total = Volume::litres(60.0);
  pot.working = Volume::litres(54.0);
  pot.wall_mass = Mass::kilograms(8.0);
  pot.loss_lid_on = HeatLoss::watts_per_kelvin(8.0);
  pot.loss_open = HeatLoss::watts_per_kelvin(16.0);
  pot.heat = Power::kilowatts(8.0);
  pot.heat_efficiency = Share::percent(50.0);
  pot.heated_from_below = true;
  Vessel tub;
  tub.name = "mash tub";
  tub.total = Volume::litres(90.0);
  tub.working = Volume::litres(84.0);
  tub.wall_mass = Mass::kilograms(11.0);
  tub.loss_lid_on = HeatLoss::watts_per_kelvin(2.5);
  tub.loss_open = HeatLoss::watts_per_kelvin(14.0);
  tub.dead_volume = Volume::litres(0.5);
  tub.cooling_coil = HeatLoss::watts_per_kelvin(45.0);
  Vessel fermenter;
  fermenter.name = "fermenter";
  fermenter.total = Volume::litres(140.0);
  fermenter.working = Volume::litres(122.0);
  fermenter.wall_mass = Mass::kilograms(6.0);
  fermenter.wall = Material::plastic;
  fermenter.loss_lid_on = HeatLoss::watts_per_kelvin(10.0);
  fermenter.loss_open = HeatLoss::watts_per_kelvin(25.0);
  fermenter.cooling_coil = HeatLoss::watts_per_kelvin(60.0);
  kit.vessels = {pot, tub, fermenter};
  kit.still.boiler.total = Volume::litres(45.0);
  kit.still.boiler.wall_mass = Mass::kilograms(14.0);
  kit.still.boiler.loss = HeatLoss::watts_per_kelvin(7.0);
  kit.still.boiler.power = Power::kilowatts(4.0);
  kit.still.boiler.power_adjustable = true;
  kit.still.boiler.element_covered_above = Volume::litres(6.0);
  kit.still.head_reflux_strip = {Share::percent(3.0), Share::percent(1.5)};
  kit.still.head_reflux_spirit = {Share::percent(10.0), Share::percent(4.0)};
  kit.still.spirit_power = Share::percent(55.0);
  kit.still.coolant_inlet = Temperature::celsius(12.0);
  kit.still.greatest_coolant_flow = VolumeFlow::litres_per_minute(4.0);
  kit.casks = {{"little cask", Volume::litres(10.0), Length::millimetres(18.0), false}};
  kit.staves = StaveStock{Length::millimetres(300.0), Length::millimetres(25.0),
                          Length::millimetres(10.0), 0};
  kit.constants = defaults.constants;
  return kit;
}

inline Recipe recipe_8() {
  using namespace units;
  Recipe recipe;
  recipe.name = "Tern 8";
  recipe.bill = {{"maize-cracked", Mass::kilograms(8.0), Use::cook, {}, 0.95},
                 {"barley-malt-distillers", Mass::kilograms(5.5), Use::dough_in, {}, 1.40},
                 {"rye-malt", Mass::kilograms(3.0), Use::dough_in, {}, 1.60},
                 {"sugar", Mass::kilograms(5.5), Use::boil, {}, 1.10}};
  recipe.mash.vessel = "mash tub";
  recipe.mash.cook = Cook{"boiling pot", Volume::litres(36.0), Duration::minutes(60.0), {}};
  recipe.mash.rest_temperature = Temperature::celsius(65.5);
  recipe.mash.rest_time = Duration::minutes(90.0);
  recipe.mash.sparges = {{Volume::litres(18.0), Temperature::celsius(75.0)},
                         {Volume::litres(15.0), Temperature::celsius(75.0)}};
  recipe.mash.cool_by = CoolBy::coil;
  recipe.sugar_boil =
      SugarBoil{"boiling pot", Volume::litres(8.0), Duration::minutes(20.0), {}};
  recipe.ferment.vessel = "fermenter";
  recipe.ferment.fill_to = Volume::litres(110.0);
  recipe.ferment.pitch_temperature = Temperature::celsius(25.0);
  recipe.ferment.yeast = "distillers-dry";
  recipe.ferment.yeast_price_per_kg = 18.0;
  recipe.ferment.held = true;
  recipe.ferment.nutrient_nitrogen = MassConcentration::grams_per_litre(0.05);
  recipe.strip.stop = VolumeStrength::percent(10.0);
  recipe.spirit_run.feints = SpiritLot{Volume::litres(1.5), VolumeStrength::percent(32.0)};
  recipe.spirit_run.foreshots_end = Volume::millilitres(150.0);
  recipe.spirit_run.heads_end = Volume::millilitres(800.0);
  recipe.reduce.maturing = VolumeStrength::percent(55.0);
  recipe.wood = WoodStep{};
  recipe.wood->time = Duration::months(6.0);
  recipe.bottle.strength = VolumeStrength::percent(46.0);
  recipe.bottle.filter_loss = Share::percent(0.5);
  recipe.prices.currency = "Tern crowns";
  recipe.prices.energy_per_kWh = 0.28;
  recipe.prices.water_per_m3 = 4.0;
  recipe.prices.bottle_each = 1.10;
  return recipe;
}

}  // namespace lynearm::plan::tern
