#include "plan/ferment_stage.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "ferment/gas.hpp"
#include "ferment/warmth.hpp"
#include "ferment/yeast.hpp"
#include "mash/heat.hpp"
#include "plan/house.hpp"
#include "plan/room_gas.hpp"
#include "wort/attenuation.hpp"
#include "wort/gravity.hpp"

namespace lynearm::plan {
namespace {

// No plan waits longer than this for a ferment; past it the outcome is "slow" or "stuck".
constexpr units::Duration horizon = units::Duration::days(30.0);
// Foam wants about a tenth of the vessel (common practice, no source).
constexpr units::Share foam_room = units::Share::percent(10.0);

ferment::Batch batch_of(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                        const Vessel& vessel, const WortPlan& wort, const FermentPlan& plan,
                        const ferment::Sugars& sugars) {
  ferment::Batch batch;
  batch.wort = wort.whole;
  batch.sugars = sugars;
  batch.yeast = plan.yeast;
  batch.nitrogen = plan.nutrition.nitrogen +
                   units::Mass::grams(recipe.ferment.nutrient_nitrogen.grams_per_litre() *
                                      wort.volume.litres());
  batch.pitched_at = wort.top_up.temperature;
  batch.tolerance = ferment::yeast(recipe.ferment.yeast).tolerance.value;
  batch.yield = drawn.alcohol_yield;
  batch.vessel.room = kit.place.ambient;
  batch.vessel.loss = vessel.loss_lid_on * drawn.heat_loss_factor.fraction();
  batch.vessel.held = recipe.ferment.held;
  return batch;
}

void pace_findings(const Recipe& recipe, const FermentPlan& plan,
                   std::vector<Finding>& findings) {
  const ferment::Yeast& yeast = ferment::yeast(recipe.ferment.yeast);
  if (plan.pace.ending != ferment::Ending::dry) {
    findings.push_back(
        {Weight::caution,
         plan.pace.ending == ferment::Ending::stuck ? "ferment-sticks" : "ferment-slow",
         "Ferment",
         fmt::format("The forecast leaves {:.0f} g/L of sugar after {:.0f} days.",
                     plan.pace.sugar_left.grams_per_litre(), horizon.days()),
         "Check nitrogen, pitch, temperature and the yeast's tolerance; see the ferment's "
         "figures."});
  }
  if (plan.pace.warmest > yeast.warmest.value) {
    findings.push_back(
        {Weight::caution, "ferment-too-warm", "Ferment",
         fmt::format(
             "Uncooled, the ferment warms to {:.1f} °C; {} is stressed above {:.0f} °C.",
             plan.pace.warmest.celsius(), yeast.name, yeast.warmest.value.celsius()),
         "Pitch cooler, cool the vessel, or split it."});
  }
  units::Temperature coolest = plan.pace.course.front().temperature;
  for (const ferment::PacePoint& point : plan.pace.course) {
    coolest = std::min(coolest, point.temperature);
  }
  if (coolest < yeast.coolest.value &&
      recipe.ferment.pitch_temperature >= yeast.coolest.value) {
    findings.push_back(
        {Weight::caution, "ferment-cools", "Ferment",
         fmt::format("In its room the ferment falls to {:.1f} °C; under {:.0f} °C {} is slow.",
                     coolest.celsius(), yeast.coolest.value.celsius(), yeast.name),
         "Wrap the vessel, warm the room, or have its temperature held."});
  }
  if (recipe.ferment.pitch_temperature < yeast.coolest.value) {
    findings.push_back({Weight::caution, "pitched-too-cold", "Ferment",
                        fmt::format("{:.1f} °C is under the {:.0f} °C that {} works at.",
                                    recipe.ferment.pitch_temperature.celsius(),
                                    yeast.coolest.value.celsius(), yeast.name),
                        "Pitch warmer."});
  }
  if (plan.strength_if_dry > yeast.tolerance.value) {
    findings.push_back(
        {Weight::caution, "over-tolerance", "Ferment",
         fmt::format(
             "Dry, the wash would come to {:.1f} %vol, over the {:.0f} %vol that {} bears.",
             plan.strength_if_dry.percent(), yeast.tolerance.value.percent(), yeast.name),
         "Less sugar, more water, or another yeast."});
  }
  const double short_mg_L =
      (plan.nutrition.shortfall - recipe.ferment.nutrient_nitrogen).milligrams_per_litre();
  if (short_mg_L > 10.0) {
    findings.push_back(
        {short_mg_L > 0.3 * plan.nutrition.need.milligrams_per_litre() ? Weight::caution
                                                                       : Weight::remark,
         "nitrogen-short", "Ferment",
         fmt::format("Assimilable nitrogen is {:.0f} mg/L short of {:.0f}.", short_mg_L,
                     plan.nutrition.need.milligrams_per_litre()),
         fmt::format("Stir in {:.0f} g of di-ammonium phosphate, or use more malt.",
                     plan.nutrition.diammonium_phosphate.grams() * short_mg_L /
                         plan.nutrition.shortfall.milligrams_per_litre())});
  }
}

void gas_findings(const Kit& kit, const FermentPlan& plan, std::vector<Finding>& findings) {
  if (!plan.room_at_peak) return;
  const units::Share air = *plan.room_at_peak;
  if (air <= ferment::carbon_dioxide_limit_8h) return;
  findings.push_back(
      {air > ferment::carbon_dioxide_limit_short ? Weight::danger : Weight::caution,
       "carbon-dioxide", "Ferment",
       fmt::format(
           "At its peak the ferment gives off {:.0f} L of carbon dioxide an hour; in the "
           "closed {:.0f} m³ room that settles at {:.1f} % of the air (limit for a working "
           "day 0.5 %).",
           plan.peak_carbon_dioxide.litres_per_hour(), kit.place.ferment_room->cubic_metres(),
           air.percent()),
       fmt::format(
           "Bring in at least {:.0f} m³ of fresh air an hour, low down, or lead the gas "
           "outside; keep an alarm near the floor.",
           plan.fresh_air.litres_per_hour() / 1000.0)});
}

}  // namespace

FermentPlan plan_ferment(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                         const WortPlan& wort, std::vector<Finding>& findings) {
  const Vessel& vessel = vessel_named(kit, recipe.ferment.vessel);
  const ferment::Sugars sugars{wort.fermentable, wort.hexose_per_gram};
  FermentPlan plan;
  plan.original_gravity = wort.original_gravity;
  plan.yeast = ferment::dry_yeast(wort.volume, recipe.ferment.pitch);
  plan.nutrition = ferment::nutrition(
      wort.volume, ferment::hexose(wort.whole, sugars),
      {wort.extract_from_malt, wort.extract_from_raw_grain, wort.extract_from_sugar});
  ferment::Kinetics kinetics;
  kinetics.vigour = drawn.ferment_vigour.fraction();
  plan.pace = ferment::pace(batch_of(recipe, kit, drawn, vessel, wort, plan, sugars), kinetics,
                            horizon);
  plan.dry_after = plan.pace.dry_after.value_or(horizon);
  plan.ready_after = plan.dry_after + recipe.ferment.rest_after_dry;
  plan.fermented = ferment::ferment(wort.whole, sugars, drawn.alcohol_yield, plan.pace.done);
  const wort::Wash& wash = plan.fermented.wash;
  plan.final_gravity = wort::specific_gravity(wash);
  plan.strength = wort::strength(wash);
  plan.strength_if_dry =
      wort::strength(ferment::ferment(wort.whole, sugars, drawn.alcohol_yield).wash);
  plan.alcohol_by_mass = units::Share::fraction(wash.ethanol / wash.mass());
  plan.apparent_attenuation =
      wort::apparent_attenuation(wort.extract, wort::plato(plan.final_gravity));
  plan.volume = wort::volume(wash);

  const RoomGas gas = room_gas(plan.fermented.carbon_dioxide, plan.pace, kit.place);
  plan.carbon_dioxide = gas.volume;
  plan.peak_carbon_dioxide = gas.peak->rate;
  plan.fresh_air = gas.peak->fresh_air;
  plan.room_at_peak = gas.peak->room;
  plan.heat = ferment::heat(plan.fermented.hexose_fermented);
  plan.adiabatic_rise = ferment::adiabatic_rise(plan.fermented.hexose_fermented,
                                                ferment::heat_capacity(wort.whole));
  plan.rise = plan.pace.warmest - kit.place.ambient;

  plan.lees = wash * drawn.lees.fraction();
  plan.racked = wash - plan.lees;
  plan.solids = wort.solids * (1.0 - drawn.lees.fraction());
  plan.racked_volume =
      wort::volume(plan.racked) +
      units::Volume::litres(plan.solids.kilograms() * mash::grain_displacement_L_per_kg);

  const units::Share room = units::Share::fraction((vessel.total - wort.fill) / vessel.total);
  if (wort.fill <= vessel.working && room < foam_room) {
    findings.push_back({Weight::caution, "no-room-for-foam", "Ferment",
                        fmt::format("The {} has {:.0f} % of its room left above the wort.",
                                    vessel.name, room.percent()),
                        "Leave a tenth for foam, or use a larger vessel."});
  }
  pace_findings(recipe, plan, findings);
  gas_findings(kit, plan, findings);
  return plan;
}

}  // namespace lynearm::plan
