#include "plan/run_plan.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "mash/heat.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"

namespace lynearm::plan {
namespace {

// The least flow leaves no room for a tap that drifts or a coil that is furred: half as much
// again is set (common practice, no source).
constexpr double coolant_margin = 1.5;
// Longer than one watch beside the still (common practice, no source).
constexpr units::Duration longest_watch = units::Duration::hours(14.0);
// Below this much more than the least, the condenser is called tight.
constexpr double coolant_tight = 1.15;

// Flow of spirit in the first moments, from the first points of the run.
still::SpiritFlow first_flow(const still::Run& run) {
  const still::Point& from = run.first();
  const auto later = std::find_if(run.points.begin(), run.points.end(), [&](const auto& point) {
    return point.collected > from.collected && point.since_boiling > from.since_boiling;
  });
  const still::Point& to = later == run.points.end() ? run.last() : *later;
  const double seconds = (to.since_boiling - from.since_boiling).seconds();
  const double litres = (to.collected - from.collected).litres();
  return {units::VolumeFlow::litres_per_second(seconds > 0.0 ? litres / seconds : 0.0),
          from.spout};
}

CoolantPlan plan_coolant(const still::Run& run, units::Temperature spout, const Kit& kit,
                         const vapour::BoilingCurve& curve) {
  still::Condenser condenser;
  condenser.coolant_inlet = kit.still.coolant_inlet;
  condenser.greatest_flow = kit.still.greatest_coolant_flow;
  const still::SpiritFlow flow = first_flow(run);
  CoolantPlan plan;
  plan.spirit_flow = flow.at_20C;
  plan.cooling = still::cooling(flow, spout, condenser, curve);
  plan.flow = std::min(plan.cooling.least_flow * coolant_margin, condenser.greatest_flow);
  plan.leaving = still::coolant_leaving(plan.cooling.heat, condenser.coolant_inlet, plan.flow);
  // The heat falls through a run as slowly as its power; the tap is taken as left alone.
  plan.water =
      units::Volume::litres(plan.flow.litres_per_second() * run.last().since_boiling.seconds());
  return plan;
}

}  // namespace

units::VolumeStrength first_spout(const still::Charge& charge, units::Share head_reflux,
                                  const vapour::BoilingCurve& curve) {
  const units::MoleFraction pot = spirit::mole_fraction(spirit::mass_fraction(charge.spirit));
  const units::MoleFraction drop = curve.first_drop(curve.vapour(pot), head_reflux, pot);
  return spirit::volume_strength(spirit::mass_fraction(curve.vapour(drop)));
}

RunPlan plan_run(const still::Charge& charge, const RunWish& wish, const Kit& kit,
                 const Drawn& drawn, const vapour::BoilingCurve& curve) {
  still::Boiler boiler = still_boiler(kit, drawn);
  // The grain warms with the metal, and takes its room at any temperature.
  boiler.wall += mash::heat_capacity_of_grain(wish.solids, {});
  const units::Volume grain =
      units::Volume::litres(wish.solids.kilograms() * mash::grain_displacement_L_per_kg);
  RunPlan plan;
  plan.charge = charge;
  plan.solids = wish.solids;
  plan.charge_volume = still::volume(charge, spirit::reference_20C) + grain;
  plan.charge_strength = spirit::strength(charge.spirit);
  plan.heat_up = still::heat_up(charge, boiler, kit.place.ambient, curve);
  plan.volume_at_boil = plan.heat_up.volume_at_boil + grain;
  plan.power = wish.power;
  still::RunSetting setting;
  setting.head_reflux = wish.head_reflux;
  setting.heating = {wish.power, boiler.heating_efficiency, boiler.loss, kit.place.ambient};
  setting.wall = boiler.wall;
  plan.run = still::distil(charge, setting, curve, wish.stop);
  const spirit::Lot& distillate = plan.run.distillate();
  const double lost =
      std::min(1.0, drawn.still_loss.fraction() / plan.run.recovered().fraction());
  plan.lost = distillate * lost;
  plan.collected = distillate - plan.lost;
  plan.left_in_pot =
      still::volume({plan.run.left(), charge.extract, {}}, plan.run.last().pot_temperature) +
      grain;
  plan.length = plan.heat_up.duration + plan.run.last().since_boiling;
  plan.energy = plan.heat_up.drawn + plan.run.last().drawn;
  plan.coolant = plan_coolant(plan.run, wish.spout_temperature, kit, curve);
  return plan;
}

void run_findings(const RunPlan& plan, const Kit& kit, const std::string& stage,
                  std::vector<Finding>& findings) {
  const Boiler& boiler = kit.still.boiler;
  if (plan.length > longest_watch) {
    findings.push_back(
        {Weight::caution, "run-too-long", stage,
         fmt::format("One run takes {:.0f} h from cold pot to end, and a heated still "
                     "is never left.",
                     plan.length.hours()),
         "Charge less, give more power, or stop part way: heat off, let it cool, go "
         "on another day."});
  }
  if (plan.volume_at_boil > boiler.total) {
    findings.push_back(
        {Weight::stop, "boiler-overfilled", stage,
         fmt::format("The charge swells to {:.1f} L at the boil, over the boiler's "
                     "{:.1f} L.",
                     plan.volume_at_boil.litres(), boiler.total.litres()),
         "Charge less."});
  }
  if (boiler.element_covered_above > units::Volume{}) {
    if (plan.left_in_pot < boiler.element_covered_above) {
      findings.push_back(
          {Weight::danger, "element-exposed", stage,
           fmt::format("{:.1f} L is left in the boiler at the end; the element "
                       "needs {:.1f} L over it and burns dry.",
                       plan.left_in_pot.litres(), boiler.element_covered_above.litres()),
           "Charge more, or stop earlier."});
    } else if (plan.left_in_pot < boiler.element_covered_above * 1.2) {
      findings.push_back(
          {Weight::caution, "element-nearly-exposed", stage,
           fmt::format("{:.1f} L is left over an element that needs {:.1f} L.",
                       plan.left_in_pot.litres(), boiler.element_covered_above.litres()),
           "Watch the level; stop before it shows."});
    }
  }
  const CoolantPlan& coolant = plan.coolant;
  if (!coolant.cooling.flow_enough) {
    findings.push_back(
        {Weight::danger, "coolant-short", stage,
         fmt::format("The condenser needs {:.1f} L of coolant a minute at the "
                     "start and gets {:.1f}: vapour would escape.",
                     coolant.cooling.least_flow.litres_per_minute(),
                     kit.still.greatest_coolant_flow.litres_per_minute()),
         fmt::format("Give less heat, so that no more than {:.1f} L of spirit runs "
                     "an hour, or more or colder coolant.",
                     coolant.cooling.greatest_spirit.litres_per_hour())});
  }
  if (coolant.cooling.flow_enough &&
      kit.still.greatest_coolant_flow < coolant.cooling.least_flow * coolant_tight) {
    findings.push_back(
        {Weight::caution, "coolant-tight", stage,
         fmt::format("The condenser needs at least {:.2f} L of coolant a minute at "
                     "the start and can get {:.2f}: there is no margin.",
                     coolant.cooling.least_flow.litres_per_minute(),
                     kit.still.greatest_coolant_flow.litres_per_minute()),
         "Give less heat, or more or colder coolant."});
  }
  if (!coolant.cooling.spout_reachable) {
    findings.push_back({Weight::remark, "spout-warmer", stage,
                        fmt::format("With coolant at {:.0f} °C the spirit runs at {:.0f} °C at "
                                    "best; gauge it with its temperature.",
                                    kit.still.coolant_inlet.celsius(),
                                    coolant.cooling.coldest_spout.celsius()),
                        "Colder coolant."});
  }
}

}  // namespace lynearm::plan
