// Random recipes and kits that are valid: every value within what the readers accept, every
// name known, amounts in proportion to one another as a maker's would be, but otherwise wild.
#pragma once

#include <cmath>
#include <cstdint>
#include <string>

#include "numeric/ensemble.hpp"
#include "plan/kit.hpp"
#include "plan/process.hpp"
#include "plan/recipe.hpp"

namespace lynearm::plan {

struct Pair {
  Recipe recipe;
  Kit kit;
};

class RandomPair {
 public:
  explicit RandomPair(std::uint64_t number) : draw_(20261125, number) {}

  Pair make() {
    wash_L_ = 10.0 * std::pow(50.0, draw_.uniform());  // 10 to 500 L, even in the logarithm
    Pair pair;
    pair.kit = kit();
    pair.recipe = recipe();
    return pair;
  }

 private:
  double between(double low, double high) { return low + (high - low) * draw_.uniform(); }
  bool chance(double p) { return draw_.uniform() < p; }
  units::Mass kg(double low, double high) { return units::Mass::kilograms(between(low, high)); }
  units::Volume litres(double low, double high) {
    return units::Volume::litres(between(low, high));
  }

  Vessel vessel(const char* name, double total_L) {
    Vessel v;
    v.name = name;
    v.total = units::Volume::litres(total_L);
    v.working = v.total * between(0.8, 1.0);
    v.wall_mass = units::Mass::kilograms(total_L * between(0.05, 0.2));
    v.loss_lid_on =
        units::HeatLoss::watts_per_kelvin(std::pow(total_L, 2.0 / 3.0) * between(0.1, 0.6));
    v.loss_open = v.loss_lid_on * between(1.0, 4.0);
    v.dead_volume = units::Volume::litres(total_L * between(0.0, 0.01));
    if (chance(0.5)) v.cooling_coil = units::HeatLoss::watts_per_kelvin(between(10.0, 100.0));
    return v;
  }

  Kit kit() {
    Kit k;
    k.name = "random";
    k.place.pressure = units::Pressure::kilopascals(between(70.0, 104.0));
    k.place.ambient = units::Temperature::celsius(between(5.0, 28.0));
    if (chance(0.7)) k.place.ferment_room = units::Volume::cubic_metres(between(10.0, 200.0));
    k.place.humidity = units::Share::percent(between(30.0, 95.0));
    k.liquor.cold = units::Temperature::celsius(between(2.0, 20.0));
    k.liquor.hot = units::Temperature::celsius(between(70.0, 90.0));
    Vessel pot = vessel("pot", wash_L_ * between(0.4, 1.0));
    pot.heat = units::Power::watts(pot.total.litres() * between(80.0, 200.0));
    Vessel tub = vessel("tub", wash_L_ * between(0.6, 1.5));
    if (chance(0.5)) tub.heat = units::Power::watts(tub.total.litres() * between(60.0, 150.0));
    tub_has_coil_ = tub.cooling_coil > units::HeatLoss{};
    k.vessels = {pot, tub, vessel("fermenter", wash_L_ * between(0.9, 1.6))};
    Boiler& boiler = k.still.boiler;
    boiler.total = units::Volume::litres(wash_L_ * between(0.25, 1.5));
    boiler.wall_mass = units::Mass::kilograms(boiler.total.litres() * between(0.1, 0.4));
    boiler.loss = units::HeatLoss::watts_per_kelvin(std::pow(boiler.total.litres(), 2.0 / 3.0) *
                                                    between(0.2, 0.6));
    boiler.power = units::Power::watts(boiler.total.litres() * between(60.0, 150.0));
    boiler.power_adjustable = chance(0.7);
    if (chance(0.5)) boiler.element_covered_above = boiler.total * between(0.05, 0.3);
    k.still.head_reflux_strip = {units::Share::percent(between(0.0, 8.0)),
                                 units::Share::percent(between(0.5, 2.0))};
    k.still.head_reflux_spirit = {units::Share::percent(between(2.0, 25.0)),
                                  units::Share::percent(between(1.0, 4.0))};
    k.still.coolant_inlet = units::Temperature::celsius(between(4.0, 22.0));
    k.still.greatest_coolant_flow =
        units::VolumeFlow::litres_per_minute(boiler.power.kilowatts() * between(0.3, 2.0));
    k.casks = {{"cask", units::Volume::litres(std::max(1.0, wash_L_ * between(0.05, 0.25))),
                units::Length::millimetres(between(12.0, 28.0)), chance(0.5)}};
    k.constants = process_defaults().constants;
    return k;
  }

  Recipe recipe() {
    Recipe r;
    r.name = "random";
    const double grain_kg = wash_L_ * between(0.08, 0.22);
    const bool cooks = chance(0.4);
    const double cooked = cooks ? between(0.2, 0.6) : 0.0;
    static const char* const malts[] = {"barley-malt-distillers", "rye-malt", "wheat-malt"};
    if (cooks) {
      r.bill.push_back({"maize-cracked",
                        units::Mass::kilograms(grain_kg * cooked),
                        Use::cook,
                        {},
                        between(0.5, 2.0)});
    }
    r.bill.push_back({"barley-malt-distillers",
                      units::Mass::kilograms(grain_kg * (1.0 - cooked) * between(0.4, 0.6)),
                      Use::dough_in,
                      {},
                      between(0.5, 2.0)});
    r.bill.push_back({malts[static_cast<int>(between(0.0, 2.999))],
                      units::Mass::kilograms(grain_kg * (1.0 - cooked) * between(0.3, 0.6)),
                      Use::dough_in,
                      {},
                      {}});
    if (chance(0.3)) {
      r.bill.push_back(
          {"oats-flaked", units::Mass::kilograms(grain_kg * 0.2), Use::dough_in, {}, {}});
    }
    const bool sweet = chance(0.5);
    if (sweet) {
      r.bill.push_back({chance(0.7) ? "sugar" : "honey",
                        units::Mass::kilograms(wash_L_ * between(0.01, 0.08)),
                        Use::boil,
                        {},
                        {}});
      r.sugar_boil = SugarBoil{"pot",
                               litres(0.05 * wash_L_, 0.12 * wash_L_),
                               units::Duration::minutes(between(5.0, 40.0)),
                               {}};
    }
    r.mash.vessel = "tub";
    if (cooks) {
      r.mash.cook = Cook{"pot",
                         units::Volume::litres(grain_kg * cooked * between(3.2, 5.5)),
                         units::Duration::minutes(between(20.0, 90.0)),
                         {}};
      r.mash.water = units::Volume::litres(grain_kg * between(0.0, 1.0));
      r.mash.water_temperature = units::Temperature::celsius(between(60.0, 80.0));
    } else {
      r.mash.water = units::Volume::litres(grain_kg * between(2.5, 4.5));
    }
    r.mash.rest_temperature = units::Temperature::celsius(between(60.0, 68.0));
    r.mash.rest_time = units::Duration::minutes(between(45.0, 120.0));
    r.mash.squeeze = chance(0.7);
    r.mash.on_the_grain = chance(0.15);
    if (!r.mash.on_the_grain) {
      for (int i = static_cast<int>(between(0.0, 3.999)); i > 0; --i) {
        r.mash.sparges.push_back({units::Volume::litres(grain_kg * between(0.5, 1.5)),
                                  units::Temperature::celsius(between(65.0, 78.0))});
      }
    }
    r.mash.cool_by = tub_has_coil_ ? CoolBy::coil : CoolBy::lid_off;
    r.ferment.vessel = "fermenter";
    if (chance(0.8)) r.ferment.fill_to = units::Volume::litres(wash_L_);
    r.ferment.pitch_temperature = units::Temperature::celsius(between(18.0, 30.0));
    r.ferment.yeast = "distillers-dry";
    r.ferment.pitch = units::MassConcentration::grams_per_litre(between(0.2, 1.5));
    r.ferment.held = chance(0.3);
    r.strip.stop = units::VolumeStrength::percent(between(3.0, 15.0));
    if (chance(0.2)) r.strip.charges = static_cast<int>(between(1.0, 6.999));
    if (chance(0.5)) {
      r.spirit_run.feints = SpiritLot{litres(0.005 * wash_L_, 0.03 * wash_L_),
                                      units::VolumeStrength::percent(between(20.0, 45.0))};
    }
    r.spirit_run.surplus = chance(0.5) ? Surplus::keep : Surplus::second_run;
    r.spirit_run.foreshots_end = units::Volume::millilitres(wash_L_ * between(0.5, 4.0));
    if (chance(0.5)) {
      r.spirit_run.heads_end = units::Volume::millilitres(wash_L_ * between(4.0, 12.0));
    } else {
      r.spirit_run.heads_end = units::VolumeStrength::percent(between(68.0, 80.0));
    }
    if (chance(0.3)) {
      r.spirit_run.hearts_end = units::Temperature::celsius(between(88.0, 93.0));
    } else {
      r.spirit_run.hearts_end = units::VolumeStrength::percent(between(50.0, 66.0));
    }
    r.spirit_run.keep_heads = chance(0.7);
    r.reduce.maturing = units::VolumeStrength::percent(between(50.0, 63.0));
    if (chance(0.7)) {
      r.wood = WoodStep{};
      if (chance(0.5)) r.wood->in = std::string("cask");
      r.wood->time = units::Duration::months(between(0.5, 36.0));
      r.wood->temperature = units::Temperature::celsius(between(6.0, 28.0));
    }
    r.bottle.strength = units::VolumeStrength::percent(between(40.0, 50.0));
    r.bottle.filter_loss = units::Share::percent(between(0.0, 2.0));
    return r;
  }

  numeric::Draw draw_;
  double wash_L_ = 0.0;
  bool tub_has_coil_ = false;
};

}  // namespace lynearm::plan
