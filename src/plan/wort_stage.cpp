#include "plan/wort_stage.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "ferment/yeast.hpp"
#include "ferment/yield.hpp"
#include "mash/cooling.hpp"
#include "plan/house.hpp"
#include "wort/gravity.hpp"

namespace lynearm::plan {
namespace {

SugarPlan boil_sugar(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                     const mash::Bill& lines, std::vector<Finding>& findings) {
  const SugarBoil& boil = *recipe.sugar_boil;
  const Vessel& pot = vessel_named(kit, boil.vessel);
  units::Mass all;
  for (const mash::GristLine& line : lines) all += line.mass;
  SugarPlan plan;
  for (const mash::GristLine& line : lines) {
    const double part = line.mass / all;
    mash::SugarBoilSteps steps;
    steps.mass = line.mass;
    steps.sugar_temperature = kit.place.ambient;
    steps.water = boil.water * part;
    steps.water_temperature = kit.liquor.cold;
    steps.time = boil.time;
    steps.boil_off = boil.boil_off * part;
    steps.boiling = boiling_water(kit);
    const mash::SugarSolution solution = mash::sugar_boil(line.ingredient, steps);
    plan.wort = plan.wort + solution.wort;
    plan.contents = plan.contents.mass() > units::Mass{}
                        ? mash::together(plan.contents, solution.contents)
                        : solution.contents;
    plan.hot += solution.hot;
    plan.boiled_away += solution.boiled_away;
  }
  const units::Power heat = pot.heat * pot.heat_efficiency.fraction();
  if (heat > units::Power{}) {
    plan.heating = mash::time_to_heat(
        kit.liquor.cold, boiling_water(kit),
        mash::heat_capacity(plan.contents) + pot.wall_heat_capacity(), heat,
        pot.loss_lid_on * drawn.heat_loss_factor.fraction(), kit.place.ambient);
    // At the boil the pot must make good its loss and the steam that leaves.
    const double loss_W = pot.loss_lid_on.watts_per_kelvin() *
                          drawn.heat_loss_factor.fraction() *
                          (boiling_water(kit) - kit.place.ambient).kelvins();
    const double steam_J = plan.boiled_away.litres() * mash::evaporation_J_per_kg;
    plan.energy = units::Energy::joules(pot.heat.watts() * plan.heating.seconds() +
                                        (steam_J + loss_W * boil.time.seconds()) /
                                            pot.heat_efficiency.fraction());
  }
  watch_fullness(pot, plan.hot + plan.boiled_away, "Mash", "with the sugar at the boil",
                 findings);
  return plan;
}

// What runs off is as warm as the mash when it left it: the first runnings at the end of the
// rest, each sparge where its water and the wet grain settle.
mash::Contents run_offs_together(const MashPlan& mash, const Recipe& recipe) {
  mash::Contents together;
  units::Temperature bed = mash.rested.end;
  const units::HeatCapacity grain =
      mash::heat_capacity_of_grain(mash.doughed_in.grain, mash.doughed_in.moisture) +
      units::HeatCapacity::joules_per_kelvin(mash.drained->kept.water.kilograms() *
                                             mash::water_J_per_kg_K);
  std::size_t sparge = 0;
  for (const mash::RunOff& run_off : mash.drained->run_offs) {
    if (run_off.kind == mash::RunOffKind::sparge) {
      const Sparge& given = recipe.mash.sparges.at(sparge++);
      const mash::Contents water = mash::water(given.water, given.temperature);
      const mash::Body bodies[] = {{grain, bed},
                                   {mash::heat_capacity(water), given.temperature}};
      bed = mash::mixing_temperature(bodies);
    }
    const mash::Contents wort{run_off.wort.water, {}, {}, run_off.wort.extract, bed};
    if (wort.mass() <= units::Mass{}) continue;
    together = together.mass() > units::Mass{} ? mash::together(together, wort) : wort;
  }
  return together;
}

struct Sweet {
  units::Mass extract;
  ferment::Sugars sugars;
};

// The sugars of a line that is not mashed. Honey's are hexoses already; cane and beet sugars
// are counted as sucrose.
Sweet sweet_of(const mash::GristLine& line) {
  const mash::Potential alone = mash::extract_potential({line});
  return {alone.extract,
          {line.ingredient.fermentable.value,
           line.ingredient.sort == mash::Sort::honey ? 1.0 : ferment::hexose_per_disaccharide}};
}

class Pitching {
 public:
  Pitching(const Recipe& recipe, const Kit& kit, const Drawn& drawn, MashStage& stage,
           std::vector<Finding>& findings)
      : recipe_(recipe),
        kit_(kit),
        drawn_(drawn),
        stage_(stage),
        wort_(stage.wort),
        vessel_(vessel_named(kit, recipe.ferment.vessel)),
        findings_(findings) {}

  void plan() {
    gather();
    sugars();
    cool_and_top_up();
    wort_.whole = wort_.grain + wort_.sugar;
    wort_.whole.water = wort_.top_up.contents.water +
                        wort_.top_up.contents.grain * wort_.top_up.contents.moisture.fraction();
    wort_.extract = wort::plato(wort_.whole);
    if (wort_.extract > wort::strongest) {
      throw base::InputError(
          "ferment.fill_to",
          fmt::format("{:.1f} L", mash::volume(wort_.top_up.contents).litres()),
          fmt::format("a wort under 40 % extract; this one has {:.0f} %: fill "
                      "fuller or give less sugar",
                      wort_.extract.degrees()));
    }
    wort_.original_gravity = wort::specific_gravity(wort_.whole);
    wort_.volume = wort::volume(wort_.whole);
    watch_fullness(vessel_, wort_.fill, "Ferment", "when pitched", findings_);
  }

 private:
  // Everything that goes into the fermenter before the topping-up water.
  void gather() {
    if (stage_.mash) {
      if (stage_.mash->drained) {
        together_ = run_offs_together(*stage_.mash, recipe_);
        wort_.grain = stage_.mash->drained->collected;
      } else {
        together_ = stage_.mash->doughed_in;
        together_.temperature = stage_.mash->rested.end;
        wort_.grain = {together_.all_water(), stage_.mash->extract_made};
        const units::Mass dry = together_.grain * (1.0 - together_.moisture.fraction());
        wort_.solids = std::max(dry - stage_.mash->extract_made, units::Mass{});
      }
    }
    const auto add = [this](const mash::Contents& more) {
      together_ = together_.mass() > units::Mass{} ? mash::together(together_, more) : more;
    };
    mash::Bill boiled;
    for (std::size_t i = 0; i < recipe_.bill.size(); ++i) {
      if (recipe_.bill[i].use == Use::boil) boiled.push_back(stage_.bill.lines[i]);
      if (recipe_.bill[i].use == Use::ferment) {
        const mash::Potential alone = mash::extract_potential({stage_.bill.lines[i]});
        wort_.sugar = wort_.sugar + wort::Wort{alone.lines[0].moisture, alone.extract};
        add({alone.lines[0].moisture, {}, {}, alone.extract, kit_.place.ambient});
      }
    }
    if (!boiled.empty()) {
      stage_.sugar = boil_sugar(recipe_, kit_, drawn_, boiled, findings_);
      wort_.sugar = wort_.sugar + stage_.sugar->wort;
      add(stage_.sugar->contents);
    }
    // The fermenter's wall is cold, and warms at the wort's cost; the wort gathers over the
    // whole run-off, so on the mean it stands for half of it.
    const mash::Body bodies[] = {{mash::heat_capacity(together_), together_.temperature},
                                 {vessel_.wall_heat_capacity(), kit_.place.ambient}};
    together_.temperature = mash::mixing_temperature(bodies);
    const mash::Cooling standing = cooling_of(vessel_, CoolBy::lid_on, kit_, drawn_);
    if (stage_.mash && standing.vessel > units::HeatLoss{}) {
      units::Duration gathering;
      for (const units::Duration& time : stage_.mash->run_off_time) gathering += time;
      together_.temperature = mash::temperature_after(
          together_.temperature, gathering / 2.0,
          mash::heat_capacity(together_) + vessel_.wall_heat_capacity(), standing);
    }
    wort_.collected = together_.temperature;
  }

  void sugars() {
    // A malt without enough yeast, or a yeast that stops short, leaves its share.
    const ferment::Yeast& yeast = ferment::yeast(recipe_.ferment.yeast);
    ferment::Sugars mixed;
    units::Mass so_far;
    const auto mix = [&](const Sweet& more) {
      if (more.extract <= units::Mass{}) return;
      mixed = so_far > units::Mass{} ? ferment::mixed(so_far, mixed, more.extract, more.sugars)
                                     : more.sugars;
      so_far += more.extract;
      wort_.unfermentable_hexose += more.extract * ((1.0 - more.sugars.fermentable.fraction()) *
                                                    more.sugars.hexose_per_gram);
    };
    if (stage_.mash) {
      const double fermentable = std::min(1.0, stage_.mash->limit_attenuation.fraction() *
                                                   drawn_.fermentable_factor.fraction() *
                                                   yeast.reach.value.fraction());
      mix({wort_.grain.extract,
           {units::Share::fraction(fermentable), ferment::hexose_per_disaccharide}});
      units::Mass malt;
      units::Mass raw;
      for (const mash::GristLine& line : stage_.bill.grain) {
        const units::Mass extract = mash::extract_potential({line}).extract;
        (line.ingredient.sort == mash::Sort::malt ||
                 line.ingredient.sort == mash::Sort::roasted_malt
             ? malt
             : raw) += extract;
      }
      const double malt_share = malt / (malt + raw);
      wort_.extract_from_malt = wort_.grain.extract * malt_share;
      wort_.extract_from_raw_grain = wort_.grain.extract * (1.0 - malt_share);
    }
    for (std::size_t i = 0; i < recipe_.bill.size(); ++i) {
      if (stage_.bill.lines[i].role != mash::Role::as_sugar) continue;
      const Sweet sweet = sweet_of(stage_.bill.lines[i]);
      wort_.sugar_hexose += sweet.extract * sweet.sugars.hexose_per_gram;
      mix(sweet);
    }
    wort_.extract_from_sugar = wort_.sugar.extract;
    wort_.fermentable = mixed.fermentable;
    wort_.hexose_per_gram = mixed.hexose_per_gram;
  }

  void cool_and_top_up() {
    const units::Temperature pitch = recipe_.ferment.pitch_temperature;
    const units::HeatCapacity wall = vessel_.wall_heat_capacity();
    const units::Volume fill_to =
        recipe_.ferment.fill_to.value_or(mash::volume(at_temperature(pitch)));
    const mash::Waters waters{kit_.liquor.cold, kit_.liquor.hot};
    mash::TopUp top_up = mash::top_up(together_, wall, waters, fill_to, pitch);
    if (top_up.reach == mash::Reach::stays_too_hot ||
        top_up.reach == mash::Reach::already_fuller) {
      cool_before(fill_to, pitch, wall);
      top_up = mash::top_up(together_, wall, waters, fill_to, pitch);
    }
    wort_.before_topping_up = mash::volume(together_);
    top_up_findings(top_up, fill_to);
    wort_.top_up = top_up;
    wort_.fill = top_up.volume;
  }

  // Cooled so far that cold topping-up water alone brings it to the pitching temperature.
  void cool_before(units::Volume fill_to, units::Temperature pitch, units::HeatCapacity wall) {
    const units::HeatCapacity body = mash::heat_capacity(together_) + wall;
    const units::Volume room = fill_to - mash::volume(at_temperature(pitch));
    units::Temperature to = pitch;
    if (room > units::Volume{} && kit_.liquor.cold < pitch) {
      const mash::Contents cold = mash::water(room, pitch);
      to = pitch + units::TemperatureChange::kelvins(
                       mash::heat_capacity(cold).joules_per_kelvin() /
                       body.joules_per_kelvin() * (pitch - kit_.liquor.cold).kelvins());
    }
    if (to >= together_.temperature) return;
    CoolingPlan cooling =
        plan_cooling(vessel_, body, together_.temperature, to, CoolBy::coil, kit_, drawn_);
    if (cooling.planned < units::Duration{}) {
      findings_.push_back(
          {Weight::stop, "cannot-cool-to-pitch", "Ferment",
           fmt::format(
               "The wort cannot cool to {:.1f} °C in the {}: the room is at {:.1f} °C and "
               "there is no coil that reaches it.",
               to.celsius(), vessel_.name, kit_.place.ambient.celsius()),
           "Give the fermenter a cooling coil, more cold topping-up water, or pitch warmer."});
      cooling.planned = units::Duration::hours(24.0);
    } else if (cooling.planned > units::Duration::hours(6.0)) {
      findings_.push_back(
          {Weight::caution, "cools-slowly", "Ferment",
           fmt::format(
               "The wort takes {:.0f} h to cool from {:.0f} to {:.1f} °C; unboiled wort "
               "sours meanwhile.",
               cooling.planned.hours(), together_.temperature.celsius(), to.celsius()),
           "Cool it with a coil, or keep more of the water back, cold, for topping up."});
    }
    wort_.cooling = cooling;
    together_.temperature = to;
  }

  void top_up_findings(const mash::TopUp& top_up, units::Volume fill_to) {
    if (recipe_.ferment.fill_to && top_up.reach == mash::Reach::already_fuller) {
      findings_.push_back(
          {Weight::caution, "more-wort-than-wanted", "Ferment",
           fmt::format(
               "There are {:.1f} L of wort before any topping up, over the {:.1f} L wanted.",
               top_up.volume.litres(), fill_to.litres()),
           "Sparge with less, or fill the fermenter fuller."});
    }
    if (top_up.reach == mash::Reach::stays_too_cold) {
      findings_.push_back(
          {Weight::caution, "pitches-cold", "Ferment",
           fmt::format("Even with hot water alone the wort comes to {:.1f} °C only.",
                       top_up.temperature.celsius()),
           "Let it cool less, or warm the fermenter."});
    }
  }

  mash::Contents at_temperature(units::Temperature t) const {
    mash::Contents contents = together_;
    contents.temperature = t;
    return contents;
  }

  const Recipe& recipe_;
  const Kit& kit_;
  const Drawn& drawn_;
  MashStage& stage_;
  WortPlan& wort_;
  const Vessel& vessel_;
  std::vector<Finding>& findings_;
  mash::Contents together_;
};

}  // namespace

void plan_wort(const Recipe& recipe, const Kit& kit, const Drawn& drawn, MashStage& stage,
               std::vector<Finding>& findings) {
  Pitching(recipe, kit, drawn, stage, findings).plan();
}

}  // namespace lynearm::plan
