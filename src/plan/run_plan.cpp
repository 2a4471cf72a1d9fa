#include "plan/run_plan.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "mash/heat.hpp"
#include "plan/element_findings.hpp"
#include "plan/still_setting.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"
#include "units/print.hpp"

namespace lynearm::plan {
namespace {

// The least flow leaves no room for a tap that drifts or a coil that is furred: half as much
// again is set (common practice, no source).
constexpr double coolant_margin = 1.5;
// Longer than one watch beside the still (common practice, no source).
constexpr units::Duration longest_watch = units::Duration::hours(14.0);
// Below this much more than the least, the condenser is called tight.
constexpr double coolant_tight = 1.15;

// Spirit made in the first moment, when most is made: what leaves the head, coil or not.
still::SpiritFlow first_flow(const still::Run& run) {
  const still::Point& first = run.first();
  const double y = first.leaving_ethanol.fraction();
  const spirit::Lot second =
      still::lot({vapour::AmountOfSubstance::moles(first.over_mol_per_s * y),
                  vapour::AmountOfSubstance::moles(first.over_mol_per_s * (1.0 - y))});
  return {units::VolumeFlow::litres_per_second(spirit::volume(second).litres()),
          spirit::strength(second)};
}

// The engine's names for what was asked, as the keys of recipe and kit.
[[noreturn]] void refuse_by_own_keys(const base::InputError& error, const RunWish& wish,
                                     const Kit& kit) {
  std::vector<base::Fault> faults = error.faults();
  for (base::Fault& fault : faults) {
    if (fault.field == "run.stop.spout_strength" ||
        fault.field == "run.stop.head_temperature") {
      fault.field = wish.stop_key;
      fault.value = wish.stop_shown;
    } else if (fault.field == "run.heating.power") {
      const bool turned_down = wish.gentle && kit.still.boiler.power_adjustable;
      fault.field = turned_down ? "head.spirit_power" : "boiler.power";
    }
  }
  throw base::InputError(std::move(faults));
}

still::Run run_of(const still::Charge& charge, const still::RunSetting& setting,
                  const RunWish& wish, const Kit& kit, const vapour::BoilingCurve& curve) {
  try {
    return still::distil(charge, setting, curve, wish.stop);
  } catch (const base::InputError& error) {
    refuse_by_own_keys(error, wish, kit);
  }
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

RunPlan plan_run(const still::Charge& charge, const RunWish& wish, const Kit& kit,
                 const Drawn& drawn, const vapour::BoilingCurve& curve) {
  const units::Power power = running_power(kit, wish.gentle);
  still::RunSetting setting = run_setting(kit, drawn, power, wish.gentle);
  // The grain warms with the metal, and takes its room at any temperature.
  setting.wall += mash::heat_capacity_of_grain(wish.solids, {});
  still::Boiler boiler = still_boiler(kit, drawn);
  boiler.wall = setting.wall;
  const units::Volume grain =
      units::Volume::litres(wish.solids.kilograms() * mash::grain_displacement_L_per_kg);
  RunPlan plan;
  plan.charge = charge;
  plan.solids = wish.solids;
  plan.charge_volume = still::volume(charge, spirit::reference_20C) + grain;
  plan.charge_strength = spirit::strength(charge.spirit);
  plan.heat_up = still::heat_up(charge, boiler, kit.place.ambient, curve);
  plan.volume_at_boil = plan.heat_up.volume_at_boil + grain;
  plan.power = power;
  plan.run = run_of(charge, setting, wish, kit, curve);
  const spirit::Lot& distillate = plan.run.distillate();
  const double lost =
      std::min(1.0, drawn.still_loss.fraction() / plan.run.recovered().fraction());
  plan.lost = distillate * lost;
  plan.collected = distillate - plan.lost;
  plan.left_in_pot =
      still::volume({plan.run.left(), charge.extract, {}}, plan.run.last().pot_temperature) +
      grain;
  plan.length = plan.run.last().since_start;
  plan.energy = plan.run.drawn_to_boil + plan.run.last().drawn;
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
    const auto [boiling, brim] = units::print_apart(plan.volume_at_boil, boiler.total);
    findings.push_back(
        {Weight::stop, "boiler-overfilled", stage,
         fmt::format("The charge swells to {} at the boil, over the boiler's {}.", boiling,
                     brim),
         "Charge less."});
  }
  if (cover_unknown(boiler)) {
    findings.push_back(
        cover_not_stated(fmt::format("About {:.1f} L is left in the boiler at the end",
                                     plan.left_in_pot.litres()),
                         stage));
  }
  if (plan.charge_volume < boiler.element_covered_above) {
    findings.push_back(charge_bares_element(plan.charge_volume, boiler, stage));
  } else if (boiler.element_covered_above > units::Volume{}) {
    const auto [left, needs] =
        units::print_apart(plan.left_in_pot, boiler.element_covered_above);
    if (plan.left_in_pot < boiler.element_covered_above) {
      findings.push_back(
          {Weight::danger, "element-exposed", stage,
           fmt::format("{} is left in the boiler at the end; the element needs {} over it and "
                       "burns dry.",
                       left, needs),
           "Charge more, or stop earlier."});
    } else if (plan.left_in_pot < boiler.element_covered_above * element_soon_shows) {
      findings.push_back({Weight::caution, "element-nearly-exposed", stage,
                          fmt::format("{} is left over an element that needs {}.", left, needs),
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
