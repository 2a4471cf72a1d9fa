#include "plan/mash_stage.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "mash/cooling.hpp"
#include "mash/dough_in.hpp"
#include "plan/bill_findings.hpp"
#include "plan/element_findings.hpp"
#include "plan/house.hpp"
#include "plan/wort_stage.hpp"
#include "wort/gravity.hpp"

namespace lynearm::plan {
namespace {

// The pot is scraped out: what sticks is not worth a figure.
constexpr units::Share stays_in_the_pot = units::Share::percent(0.0);

mash::Bill lines_of(const mash::Bill& bill, mash::Role role) {
  mash::Bill lines;
  std::copy_if(bill.begin(), bill.end(), std::back_inserter(lines),
               [role](const mash::GristLine& line) { return line.role == role; });
  return lines;
}

// Several grains stirred in as one: their mass and mean moisture.
mash::Grist grist_of(const mash::Bill& lines, units::Temperature t) {
  mash::Grist grist{{}, units::Share::percent(10.0), t};
  units::Mass moisture;
  for (const mash::GristLine& line : lines) {
    grist.mass += line.mass;
    moisture += line.mass * line.ingredient.moisture.value.fraction();
  }
  if (grist.mass > units::Mass{})
    grist.moisture = units::Share::fraction(moisture / grist.mass);
  return grist;
}

// The mash from the first heating to the last run-off, one step after another.
class MashDay {
 public:
  MashDay(const Recipe& recipe, const Kit& kit, const Drawn& drawn, const BillPlan& bill,
          std::vector<Finding>& findings)
      : recipe_(recipe),
        kit_(kit),
        drawn_(drawn),
        bill_(bill),
        vessel_(vessel_named(kit, recipe.mash.vessel)),
        findings_(findings) {}

  MashPlan plan() {
    const mash::Grist grist =
        grist_of(lines_of(bill_.grain, mash::Role::dough_in), kit_.place.ambient);
    mash::Contents liquor = recipe_.mash.cook ? cook_and_land() : strike_water();
    const units::Temperature rest = recipe_.mash.rest_temperature;
    // An unheated tub is cold when the strike water comes; a cook has warmed it.
    const bool stands_warm = recipe_.mash.cook || vessel_.heat > units::Power{};
    mash::MashVessel warm{vessel_.wall_heat_capacity(), kit_.place.ambient, stands_warm, {}};
    warm.lost = units::Energy::joules(
        mash::open_surface_loss(mash::open_surface(mash::volume(liquor)), rest).watts() *
        stirring_open.seconds());
    plan_.dough_in = grist.mass > units::Mass{}
                         ? mash::dough_in_temperature(liquor, grist, warm, rest)
                         : rest;
    bring_to_dough_in(liquor);
    liquor.temperature = plan_.dough_in;
    plan_.doughed_in =
        grist.mass > units::Mass{} ? mash::dough_in(liquor, grist, warm) : liquor;
    mash::append(plan_.course, mash::Phase::doughing_in, plan_.dough_in,
                 plan_.doughed_in.temperature, doughing_in_time);
    plan_.fullest = std::max(plan_.fullest, mash::volume(plan_.doughed_in));
    corrections();
    rest_and_convert();
    run_off();
    watch_water_in_boiler(recipe_, kit_, findings_);
    watch_fullness(vessel_, plan_.fullest, "Mash", "at its fullest", findings_);
    plan_.length = plan_.course.back().at;
    return std::move(plan_);
  }

 private:
  mash::Contents cook_and_land() {
    const Cook& cook = *recipe_.mash.cook;
    const Vessel& pot = vessel_named(kit_, cook.vessel);
    const mash::Grist grain =
        grist_of(lines_of(bill_.grain, mash::Role::cooked), kit_.place.ambient);
    const mash::CookPot cook_pot{pot.total,
                                 pot.wall_heat_capacity(),
                                 pot.heat,
                                 pot.heat_efficiency,
                                 pot.loss_lid_on * drawn_.heat_loss_factor.fraction(),
                                 kit_.place.ambient,
                                 boiling_water(kit_)};
    CookPlan& planned = plan_.cook.emplace();
    planned.cooked = mash::cook(
        cook_pot, {grain.mass, grain.moisture, grain.temperature, cook.water, kit_.liquor.cold,
                   cook.time, cook.boil_off, mash::Grind::cracked});
    plan_.energy += planned.cooked.heating + planned.cooked.simmering;
    watch_fullness(pot, planned.cooked.at_the_boil, "Mash", "at the boil", findings_);
    if (planned.cooked.too_thick) {
      findings_.push_back({Weight::caution, "cook-too-thick", "Mash",
                           fmt::format("{:.1f} L of cook water is less than the starch of "
                                       "{:.1f} kg of grain can take up: it sets and scorches.",
                                       cook.water.litres(), grain.mass.kilograms()),
                           "Give at least 3.5 L a kilogram, or cook in two parts."});
    }
    if (pot.heated_from_below && !planned.cooked.too_thick) {
      findings_.push_back(
          {Weight::remark, "cook-scorches", "Mash",
           fmt::format("The {} is heated from below: a cook is thickest at 75 to "
                       "80 °C and catches on the bottom.",
                       pot.name),
           "Stir without pause until it thins, or cook under a gentle flame."});
    }
    mash::append_heating(
        plan_.course, kit_.liquor.cold, planned.cooked.contents.temperature,
        body_of(pot, planned.cooked.contents), pot.heat * pot.heat_efficiency.fraction(),
        pot.loss_lid_on * drawn_.heat_loss_factor.fraction(), kit_.place.ambient);
    mash::append(plan_.course, mash::Phase::cooking, planned.cooked.contents.temperature,
                 planned.cooked.contents.temperature, cook.time);

    const units::Temperature beside = recipe_.mash.water_temperature.value_or(kit_.liquor.cold);
    plan_.energy +=
        drawn_to_heat(mash::water(recipe_.mash.water, kit_.liquor.cold), beside, kit_);
    mash::Pour pour;
    pour.vessel_wall = vessel_.wall_heat_capacity();
    pour.in_vessel = recipe_.mash.water > units::Volume{}
                         ? mash::water(recipe_.mash.water, beside)
                         : mash::Contents{};
    pour.vessel_temperature =
        recipe_.mash.water > units::Volume{} ? beside : kit_.place.ambient;
    pour.left_behind = stays_in_the_pot;
    const units::Volume hot = mash::volume(planned.cooked.contents);
    planned.moving = units::Duration::seconds(hot.litres() / ladling.litres_per_second());
    pour.taking = planned.moving;
    pour.steaming = mash::open_surface(hot) * 2.0;  // both vessels stand open
    pour.other_loss = vessel_.loss_lid_on * drawn_.heat_loss_factor.fraction();
    pour.ambient = kit_.place.ambient;
    planned.landed = mash::land(planned.cooked.contents, pour);
    plan_.fullest = std::max(plan_.fullest, planned.landed.volume);
    mash::append(plan_.course, mash::Phase::moving, planned.cooked.contents.temperature,
                 planned.landed.contents.temperature, planned.moving);
    return planned.landed.contents;
  }

  mash::Contents strike_water() const {
    return mash::water(recipe_.mash.water, kit_.liquor.cold);
  }

  // Cools what landed, or heats what is too cold (an infusion starts cold).
  void bring_to_dough_in(const mash::Contents& liquor) {
    const units::HeatCapacity body = body_of(vessel_, liquor);
    const units::Temperature from = liquor.temperature;
    const units::Temperature to = plan_.dough_in;
    if (from > to && !plan_.cook) {
      throw base::InputError(
          "mash.rest_temperature",
          fmt::format("{:.1f} °C", recipe_.mash.rest_temperature.celsius()),
          fmt::format(
              "a rest whose strike water is warmer than the kit's cold water, {:.1f} °C",
              from.celsius()));
    }
    if (from > to) {
      CoolingPlan cooling =
          plan_cooling(vessel_, body, from, to, recipe_.mash.cool_by, kit_, drawn_);
      if (cooling.planned < units::Duration{}) {
        throw base::InputError(
            "kit.vessel", vessel_.name,
            fmt::format(
                "a mash vessel with a heat loss, so that the cook can cool from {:.1f} to "
                "{:.1f} °C",
                from.celsius(), to.celsius()));
      }
      mash::append_cooling(plan_.course, from, to, body,
                           cooling_of(vessel_, cooling.by, kit_, drawn_));
      plan_.cook->cooling = cooling;
      return;
    }
    const units::Power heat = vessel_.heat * vessel_.heat_efficiency.fraction();
    if (plan_.cook) {
      findings_.push_back(
          {heat > units::Power{} ? Weight::caution : Weight::stop, "lands-too-cold", "Mash",
           fmt::format(
               "The cooked grain lands at {:.1f} °C in the {}, under the {:.1f} °C that "
               "the malts need to settle at {:.1f} °C.",
               from.celsius(), vessel_.name, to.celsius(),
               recipe_.mash.rest_temperature.celsius()),
           heat > units::Power{}
               ? "Use less water in the mash vessel, hotter water, or warm the vessel first."
               : "The vessel has no heat to mend that: use less water in it, hotter water, or "
                 "warm it first."});
    }
    if (plan_.cook && heat <= units::Power{}) {
      plan_.dough_in = from;  // nothing can mend it: the malts settle colder
      return;
    }
    if (heat > units::Power{}) {
      const units::HeatLoss loss = vessel_.loss_lid_on * drawn_.heat_loss_factor.fraction();
      const units::Duration time =
          mash::time_to_heat(from, to, body, heat, loss, kit_.place.ambient);
      mash::append_heating(plan_.course, from, to, body, heat, loss, kit_.place.ambient);
      plan_.energy += units::Energy::joules(vessel_.heat.watts() * time.seconds());
      (plan_.cook ? plan_.cook->heating : plan_.heating_strike) = time;
    } else {
      // Water for an infusion is heated elsewhere; the time is that of filling.
      plan_.energy += drawn_to_heat(liquor, to, kit_);
      mash::append(plan_.course, mash::Phase::heating, from, to,
                   units::Duration::minutes(10.0));
      plan_.heating_strike = units::Duration::minutes(10.0);
    }
  }

  void corrections() {
    const units::Temperature target = recipe_.mash.rest_temperature;
    if (kit_.liquor.hot <= target + units::TemperatureChange::kelvins(2.0)) {
      findings_.push_back(
          {Weight::remark, "no-hot-water", "Mash",
           fmt::format("The hot water at hand, {:.0f} °C, cannot warm a mash that "
                       "reads under its {:.1f} °C.",
                       kit_.liquor.hot.celsius(), target.celsius()),
           "Have a kettle of water near the boil ready."});
    }
    for (const double off_K : {-3.0, -2.0, -1.0, 1.0, 2.0, 3.0}) {
      mash::Contents measured = plan_.doughed_in;
      measured.temperature = target + units::TemperatureChange::kelvins(off_K);
      const bool helps =
          off_K > 0.0 ? kit_.liquor.cold < target - units::TemperatureChange::kelvins(2.0)
                      : kit_.liquor.hot > target + units::TemperatureChange::kelvins(2.0);
      if (!helps) continue;  // no water at hand moves it that way
      plan_.corrections.push_back(
          {measured.temperature,
           mash::correct(measured, vessel_.wall_heat_capacity(), target,
                         {kit_.liquor.cold, kit_.liquor.hot}, vessel_.working)});
    }
  }

  void rest_and_convert() {
    const units::Share opened = plan_.cook ? plan_.cook->cooked.opened : units::Share{};
    const mash::RestMash mash = mash::rest_mash(bill_.grain, plan_.doughed_in.mass(), opened);
    mash::RestSteps steps;
    steps.start = plan_.doughed_in.temperature;
    steps.time = recipe_.mash.rest_time;
    steps.body = body_of(vessel_, plan_.doughed_in);
    steps.cooling = cooling_of(vessel_, CoolBy::lid_on, kit_, drawn_);
    steps.spacing = units::Duration::minutes(2.0);
    plan_.rested = mash::rest(mash, steps);
    mash::append_rest(plan_.course, plan_.rested);
    plan_.extract_made =
        mash::extract_made(bill_.grain, mash, plan_.rested) * drawn_.conversion.fraction();
    refuse_syrup();
    plan_.limit_attenuation = mash::limit_attenuation(bill_.grain, mash, plan_.rested);
    // What did not dissolve stays in the grain and holds liquor like it.
    raw_starch_ = std::max(mash::extract_potential(bill_.grain).extract - plan_.extract_made,
                           units::Mass{});
    const units::TemperatureChange drift = plan_.doughed_in.temperature - plan_.rested.end;
    if (drift > units::TemperatureChange::kelvins(5.0)) {
      findings_.push_back(
          {Weight::caution, "rest-cools", "Mash",
           fmt::format("The mash cools by {:.1f} K in its rest, to {:.1f} °C: what is not "
                       "converted early stays.",
                       drift.kelvins(), plan_.rested.end.celsius()),
           "Wrap the vessel, cover it, or warm it gently half way."});
    }
    if (plan_.rested.converted < units::Share::percent(90.0)) {
      findings_.push_back(
          {Weight::caution, "starch-left", "Mash",
           fmt::format("Only {:.0f} % of the starch is converted when the rest ends.",
                       plan_.rested.converted.percent()),
           "Rest longer or warmer, grind finer, cook the raw grain, or add malt."});
    }
  }

  // Over 38 % extract nothing drains and no yeast works; the gravity tables end at 40.
  void refuse_syrup() const {
    const units::Plato extract =
        wort::plato(wort::Wort{plan_.doughed_in.all_water(), plan_.extract_made});
    if (extract <= units::Plato::degrees(38.0)) return;
    const double least_kg = plan_.extract_made.kilograms() * (100.0 / 25.0 - 1.0);
    throw base::InputError(
        recipe_.mash.cook ? "mash.cook.water" : "mash.water",
        fmt::format(
            "{:.1f} L",
            (recipe_.mash.cook ? recipe_.mash.cook->water : recipe_.mash.water).litres()),
        fmt::format(
            "so much water that the mash drains: it would hold {:.0f} % extract; {:.0f} L "
            "in all make it 25 %",
            extract.degrees(), least_kg));
  }

  void run_off() {
    plan_.slow_draining = mash::slow_draining(bill_.grain);
    if (recipe_.mash.on_the_grain) return;
    const wort::Wort liquor{plan_.doughed_in.all_water(), plan_.extract_made};
    std::vector<units::Mass> sparges;
    for (const Sparge& sparge : recipe_.mash.sparges) {
      sparges.push_back(mash::water(sparge.water, sparge.temperature).water);
    }
    mash::Draining draining;
    // A bag that is squeezed is wrung out before each sparge, not only at the last.
    draining.drained_moisture =
        recipe_.mash.squeeze ? drawn_.squeezed_moisture : drawn_.drained_moisture;
    draining.mixing = drawn_.sparge_mixing;
    draining.dead_volume = vessel_.dead_volume;
    plan_.drained = mash::drain(bill_.grain, liquor, raw_starch_, sparges, draining,
                                plan_.limit_attenuation);
    // A third of slow grain doubles the time (common practice, no source).
    const double slow = plan_.slow_draining > units::Share::fraction(1.0 / 3.0) ? 2.0 : 1.0;
    plan_.run_off_time.push_back(first_run_off_time * slow);
    for (std::size_t i = 0; i < sparges.size(); ++i) {
      plan_.run_off_time.push_back(sparge_time * slow);
    }
    units::Temperature at = plan_.rested.end;
    for (std::size_t i = 0; i < plan_.run_off_time.size(); ++i) {
      const units::Temperature to = i == 0 ? at : recipe_.mash.sparges[i - 1].temperature;
      mash::append(plan_.course, mash::Phase::draining, at, to, plan_.run_off_time[i]);
      at = to;
    }
    // While it is sparged the vessel holds the grain, what clings to it, and the sparge water.
    const units::Mass held =
        mash::held_water(bill_.grain, draining.drained_moisture, raw_starch_);
    for (const Sparge& sparge : recipe_.mash.sparges) {
      mash::Contents bed = plan_.doughed_in;
      bed.water = held;
      bed.grain = bed.grain - std::min(bed.grain, plan_.extract_made);
      bed.temperature = sparge.temperature;
      plan_.fullest = std::max(plan_.fullest, mash::volume(bed) + sparge.water);
      mash::Contents water = mash::water(sparge.water, sparge.temperature);
      water.temperature = kit_.liquor.cold;
      plan_.energy += drawn_to_heat(water, sparge.temperature, kit_);
    }
    slow_drain_finding();
    sparge_findings();
  }

  void slow_drain_finding() {
    if (plan_.slow_draining <= units::Share::fraction(1.0 / 3.0)) return;
    findings_.push_back(
        {Weight::caution, "slow-draining", "Mash",
         fmt::format(
             "{:.0f} % of the grain is rye, oats, wheat or flaked grain: the bag drains "
             "slowly, {:.0f} min are planned for the first runnings.",
             plan_.slow_draining.percent(), plan_.run_off_time.front().minutes()),
         "Stir in rice hulls (5 % of the grain), rest 20 min at 45 °C first, or ferment on the "
         "grain."});
  }

  void sparge_findings() {
    const auto& run_offs = plan_.drained->run_offs;
    std::size_t number = 0;
    for (const mash::RunOff& run_off : run_offs) {
      if (run_off.kind != mash::RunOffKind::sparge) continue;
      ++number;
      // Under 4 % of the mash's extract a sparge costs more fuel, time and dilution than it
      // brings (our estimate; in practice two are worth it, a third hardly).
      if (run_off.gained < units::Share::percent(4.0)) {
        findings_.push_back(
            {Weight::remark, "sparge-not-worth-it", "Mash",
             fmt::format(
                 "Sparge {} brings {:.2f} kg of extract, {:.1f} % of what is in the mash, "
                 "about {:.2f} L of pure alcohol.",
                 number, run_off.wort.extract.kilograms(), run_off.gained.percent(),
                 run_off.spirit.litres()),
             "Leave it out, unless water and time are free."});
      }
    }
  }

  units::HeatCapacity body_of(const Vessel& vessel, const mash::Contents& contents) const {
    return mash::heat_capacity(contents) + vessel.wall_heat_capacity();
  }

  const Recipe& recipe_;
  const Kit& kit_;
  const Drawn& drawn_;
  const BillPlan& bill_;
  const Vessel& vessel_;
  std::vector<Finding>& findings_;
  MashPlan plan_;
  units::Mass raw_starch_;
};

}  // namespace

MashStage plan_mash(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                    std::vector<Finding>& findings) {
  MashStage stage;
  stage.bill = plan_bill(recipe, drawn);
  if (stage.bill.verdict.converts == mash::Converts::no) {
    throw base::InputError(refusals(stage.bill));
  }
  bill_findings(stage.bill, findings);
  if (!stage.bill.grain.empty()) {
    stage.mash = MashDay(recipe, kit, drawn, stage.bill, findings).plan();
  }
  plan_wort(recipe, kit, drawn, stage, findings);
  return stage;
}

}  // namespace lynearm::plan
