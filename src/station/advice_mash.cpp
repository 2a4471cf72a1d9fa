#include "station/advice_mash.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "mash/cooling.hpp"
#include "mash/enzymes.hpp"
#include "plan/house.hpp"

namespace lynearm::station {
namespace {

using units::Duration;
using units::Temperature;
using wire::MashPlace;
using wire::Span;

// What water can be stirred in for.
constexpr Temperature coldest_target = Temperature::celsius(30.0);
constexpr Temperature hottest_target = Temperature::celsius(95.0);
// Nearer than this nobody needs to come.
constexpr units::TemperatureChange near_enough = units::TemperatureChange::kelvins(0.2);

bool runs_off(std::string_view what) {
  return what.starts_with("Drain") || what.starts_with("Sparge with");
}

// The steps that hands work through one after the other.
std::vector<const plan::Step*> main_line(const plan::Plan& plan) {
  std::vector<const plan::Step*> steps;
  for (const plan::Step& step : plan.timeline.steps) {
    if (step.stage == "Mash" && !step.beside) steps.push_back(&step);
  }
  return steps;
}

// How many of them are behind. Whoever works does not mark each: the furthest counts, and a
// wort that was drawn ends its run-off.
std::size_t behind(const std::vector<const plan::Step*>& steps,
                   const journal::BatchState& batch) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    bool done = false;
    for (const journal::StepState& mark : batch.steps) {
      if (mark.step == steps[i]->what) done = mark.done;
    }
    if (done) count = i + 1;
  }
  std::size_t from = 0;
  for (const journal::WortState& wort : batch.mash.worts) {
    if (wort.from == "sugar") continue;
    while (from < steps.size() && !runs_off(steps[from]->what)) ++from;
    if (from == steps.size()) break;
    count = std::max(count, ++from);
  }
  return count;
}

class Advising {
 public:
  Advising(const PlanMade& made, const plan::Vessel& tub, Temperature reading)
      : recipe_(made.pair.recipe),
        kit_(made.pair.kit),
        stage_(made.plan.mash),
        mash_(*made.plan.mash.mash),
        tub_(tub),
        drawn_(plan::medians(made.pair.kit)),
        reading_(std::min(reading, Temperature::celsius(100.0))) {}

  wire::MashAdvice of(MashPlace at, std::size_t sparges_behind) {
    advice_.at = at;
    switch (at) {
      case MashPlace::cooking:
        cooking();
        break;
      case MashPlace::moving:
        moving();
        break;
      case MashPlace::dough_in:
        dough_in(reading_, true);
        break;
      case MashPlace::strike:
        dough_in(reading_, tub_.heat > units::Power{});
        break;
      case MashPlace::rest:
        rest();
        break;
      case MashPlace::sparging:
        sparging(sparges_behind);
        break;
      case MashPlace::wort:
      case MashPlace::pitching:
        wort();
        break;
      case MashPlace::milling:
      case MashPlace::draining:
      case MashPlace::over:
        break;
    }
    return std::move(advice_);
  }

 private:
  void cooking() {
    const plan::Vessel& pot = plan::vessel_named(kit_, recipe_.mash.cook->vessel);
    mash::Contents contents = mash_.cook->cooked.contents;
    advice_.target = contents.temperature;
    heat(pot, mash::heat_capacity(contents) + pot.wall_heat_capacity(), contents.temperature);
  }

  // Nearer to the boil than to the landing: it was read in the pot.
  void moving() {
    const mash::Contents& landed = mash_.cook->landed.contents;
    mash::Contents cooked = mash_.cook->cooked.contents;
    const double between_C = (cooked.temperature.celsius() + landed.temperature.celsius()) / 2;
    if (reading_.celsius() <= between_C) return dough_in(reading_, true);
    cooked.temperature = reading_;
    const Temperature beside = recipe_.mash.water_temperature.value_or(kit_.liquor.cold);
    const bool wet = recipe_.mash.water > units::Volume{};
    const units::Volume hot = mash::volume(cooked);
    mash::Pour pour;  // as the plan moves it
    pour.vessel_wall = tub_.wall_heat_capacity();
    pour.in_vessel = wet ? mash::water(recipe_.mash.water, beside) : mash::Contents{};
    pour.vessel_temperature = wet ? beside : kit_.place.ambient;
    pour.taking = mash_.cook->moving;
    pour.steaming = mash::open_surface(hot) * 2.0;
    pour.other_loss = tub_.loss_lid_on * drawn_.heat_loss_factor.fraction();
    pour.ambient = kit_.place.ambient;
    advice_.lands = mash::land(cooked, pour).contents.temperature;
    advice_.target = mash_.dough_in;
    cool(tub_, mash::heat_capacity(landed) + tub_.wall_heat_capacity(), *advice_.lands,
         mash_.dough_in, recipe_.mash.cool_by);
  }

  // What stands ready for the malts, to where they settle at the rest. They take a fixed heat
  // above the rest, so the more water there is, the less above it they want it.
  void dough_in(Temperature read, bool wall_is_warm) {
    mash::Contents liquor = mash_.cook ? mash_.cook->landed.contents
                                       : mash::water(recipe_.mash.water, kit_.liquor.cold);
    const Temperature rest = recipe_.mash.rest_temperature;
    const units::HeatCapacity wall = tub_.wall_heat_capacity();
    const units::HeatCapacity body = mash::heat_capacity(liquor);
    const bool planned_warm = mash_.cook || tub_.heat > units::Power{};
    const double above_K = (mash_.dough_in - rest).kelvins();
    double wanted_J = (planned_warm ? body + wall : body).joules_per_kelvin() * above_K;
    // A cold wall that was planned for is warm by now: the water has paid for it.
    if (!planned_warm && wall_is_warm) {
      wanted_J -= wall.joules_per_kelvin() * (rest - kit_.place.ambient).kelvins();
    }
    const units::HeatCapacity here = wall_is_warm ? wall : units::HeatCapacity{};
    const auto target_with = [&](double added_J_per_K) {
      return rest + units::TemperatureChange::kelvins(
                        wanted_J / ((body + here).joules_per_kelvin() + added_J_per_K));
    };
    Temperature target = target_with(0.0);
    advice_.target = target;
    liquor.temperature = target;
    const units::Volume malts = mash::volume(mash_.doughed_in) - mash::volume(liquor);
    liquor.temperature = read;
    // The target moves by a tenth of what the water moves: four turns settle it.
    for (int turn = 0; turn < 4; ++turn) {
      mend(liquor, here, target, tub_.working - std::max(malts, units::Volume{}));
      if (advice_.correction.with == mash::Mend::nothing) break;
      const units::Mass added = mash::water(advice_.correction.wanted, advice_.water).water;
      target = target_with(added.kilograms() * mash::water_J_per_kg_K);
      advice_.target_then = target;
    }
    if (read > *advice_.target + near_enough) {
      cool(tub_, body + wall, read, *advice_.target, recipe_.mash.cool_by);
    } else if (read < *advice_.target - near_enough) {
      heat(tub_, body + wall, *advice_.target);
    }
  }

  void rest() {
    mash::Contents measured = mash_.doughed_in;
    measured.temperature = reading_;
    const Temperature target = recipe_.mash.rest_temperature;
    advice_.target = target;
    mend(measured, tub_.wall_heat_capacity(), target, tub_.working);
    if (reading_ > target + near_) {
      const double t_C = reading_.celsius();
      const auto half = [](double loss_per_s) {
        return Duration::seconds(std::numbers::ln2 / loss_per_s);
      };
      advice_.beta_halves = half(mash::beta_loss_per_s(t_C));
      advice_.alpha_halves = half(mash::alpha_loss_per_s(t_C));
    } else if (reading_ < target - near_) {
      heat(tub_, mash::heat_capacity(measured) + tub_.wall_heat_capacity(), target);
    }
  }

  // Of the water that is still to be given; it is warmed by the still's boiler, losses left out
  // as in the plan.
  void sparging(std::size_t done) {
    const auto& sparges = recipe_.mash.sparges;
    units::Volume left;
    for (std::size_t i = done; i < sparges.size(); ++i) left += sparges[i].water;
    if (done >= sparges.size()) return;
    const Temperature target = sparges[done].temperature;
    advice_.target = target;
    advice_.of = left;
    const mash::Contents water = mash::water(left, reading_);
    if (reading_ > target + near_enough) {
      mend(water, {}, target, left * 2.0);  // the boiler's brim is not the mash's
    } else if (reading_ < target - near_enough) {
      const plan::Boiler& boiler = kit_.still.boiler;
      const double watts = boiler.power.watts() * boiler.heat_efficiency.fraction();
      if (watts <= 0.0) return;
      const Duration time = Duration::seconds(mash::heat_capacity(water).joules_per_kelvin() *
                                              (target - reading_).kelvins() / watts);
      advice_.heating = Span{time, time, time};
    }
  }

  void wort() {
    const plan::WortPlan& planned = stage_.wort;
    const plan::Vessel& tub = plan::vessel_named(kit_, recipe_.ferment.vessel);
    const mash::Waters waters{kit_.liquor.cold, kit_.liquor.hot};
    mash::Contents contents = planned.top_up.contents;
    contents.water -= mash::water(planned.top_up.cold, waters.cold).water +
                      mash::water(planned.top_up.hot, waters.hot).water;
    contents.temperature = reading_;
    const units::HeatCapacity wall = tub.wall_heat_capacity();
    const Temperature pitch = recipe_.ferment.pitch_temperature;
    const Temperature to = planned.cooling ? planned.cooling->to : pitch;
    advice_.target = to;
    const mash::TopUp top_up = mash::top_up(contents, wall, waters, planned.fill, pitch);
    advice_.pitch = pitch;
    if (top_up.reach != mash::Reach::already_fuller) {
      advice_.top_up_cold = top_up.cold;
      advice_.top_up_hot = top_up.hot;
      advice_.topped_up = top_up.temperature;
    }
    if (reading_ > to + near_enough && (top_up.reach == mash::Reach::stays_too_hot ||
                                        top_up.reach == mash::Reach::already_fuller)) {
      cool(tub, mash::heat_capacity(contents) + wall, reading_, to, plan::CoolBy::coil);
    }
  }

  // Hot or cold water, where the water at hand can mend it.
  void mend(const mash::Contents& contents, units::HeatCapacity wall, Temperature target,
            units::Volume brim) {
    advice_.correction = {};
    const bool hot = reading_ > target;
    const Temperature water = hot ? kit_.liquor.cold : kit_.liquor.hot;
    advice_.water = water;
    if (target < coldest_target || target > hottest_target) return;
    const double lever_K = hot ? (target - water).kelvins() : (water - target).kelvins();
    if (lever_K < 1.0) return;
    advice_.correction =
        mash::correct(contents, wall, target, {kit_.liquor.cold, kit_.liquor.hot}, brim, near_);
  }

  // The 80 % band of a way to cool: less heat lost, longer.
  void cool(const plan::Vessel& vessel, units::HeatCapacity body, Temperature from,
            Temperature to, plan::CoolBy by) {
    if (from <= to) return;
    const auto with = [&](double off) {
      plan::Drawn drawn = drawn_;
      const units::Spread<units::Share>& factor = kit_.constants.heat_loss_factor;
      drawn.heat_loss_factor = units::Share::fraction(std::clamp(
          factor.median.fraction() + off * factor.half_width_80.fraction(), 0.2, 3.0));
      return plan::plan_cooling(vessel, body, from, to, by, kit_, drawn);
    };
    const plan::CoolingPlan middle = with(0.0);
    const plan::CoolingPlan slow = with(-1.0);
    const plan::CoolingPlan quick = with(1.0);
    if (middle.lid_on > Duration{})
      advice_.lid_on = Span{middle.lid_on, quick.lid_on, slow.lid_on};
    if (middle.lid_off && slow.lid_off && quick.lid_off)
      advice_.lid_off = Span{*middle.lid_off, *quick.lid_off, *slow.lid_off};
    if (middle.with_coil && slow.with_coil && quick.with_coil)
      advice_.with_coil = Span{*middle.with_coil, *quick.with_coil, *slow.with_coil};
    if (middle.planned > Duration{}) {
      advice_.clock = middle.planned;
      advice_.by = middle.by;
    }
  }

  void heat(const plan::Vessel& vessel, units::HeatCapacity body, Temperature to) {
    if (reading_ >= to - near_enough || vessel.heat <= units::Power{}) return;
    const units::Power power = vessel.heat * vessel.heat_efficiency.fraction();
    const auto with = [&](double off) {
      const units::Spread<units::Share>& factor = kit_.constants.heat_loss_factor;
      const double of = std::clamp(
          factor.median.fraction() + off * factor.half_width_80.fraction(), 0.2, 3.0);
      return mash::time_to_heat(reading_, to, body, power, vessel.loss_lid_on * of,
                                kit_.place.ambient);
    };
    try {
      advice_.heating = Span{with(0.0), with(-1.0), with(1.0)};
      advice_.clock = advice_.heating->middle;
    } catch (const base::InputError&) {
      advice_.heating.reset();  // its losses win: no time is told
    }
  }

  const plan::Recipe& recipe_;
  const plan::Kit& kit_;
  const plan::MashStage& stage_;
  const plan::MashPlan& mash_;
  const plan::Vessel& tub_;
  plan::Drawn drawn_;
  Temperature reading_;
  // A correction smaller than what the thermometer itself may be off by mends nothing.
  units::TemperatureChange near_ = std::max(near_enough, kit_.instruments.thermometer);
  wire::MashAdvice advice_;
};

MashPlace place_of(std::string_view what, bool cooked) {
  if (what.starts_with("Mill")) return MashPlace::milling;
  if (what.find("with the grain to cook") != std::string_view::npos ||
      what.starts_with("Cook the grain"))
    return MashPlace::cooking;
  if (what.starts_with("Move to")) return MashPlace::moving;
  if (what.starts_with("Stir in") || cooked) {
    if (what.starts_with("Stir in") || what.starts_with("Cool to") ||
        what.starts_with("Warm to"))
      return MashPlace::dough_in;
  }
  if (what.starts_with("Rest")) return MashPlace::rest;
  if (what.starts_with("Drain")) return MashPlace::draining;
  if (what.starts_with("Sparge")) return MashPlace::sparging;
  if (what.starts_with("Cool the wort")) return MashPlace::wort;
  return MashPlace::strike;
}

}  // namespace

wire::MashAdvice mash_advice(const PlanMade& made, const journal::BatchState& batch,
                             Temperature reading, const std::optional<std::string>& step) {
  const plan::Recipe& recipe = made.pair.recipe;
  const plan::Vessel* const vessel = made.pair.kit.vessel(recipe.mash.vessel);
  if (!made.plan.mash.mash || vessel == nullptr) {
    throw base::InputError("batch", recipe.name, "a batch that mashes grain");
  }
  if (reading < Temperature::celsius(0.0) || reading > Temperature::celsius(105.0)) {
    throw base::InputError("temperature_C", fmt::format("{:.1f}", reading.celsius()),
                           "0 to 105 °C");
  }
  const std::vector<const plan::Step*> steps = main_line(made.plan);
  std::size_t at = behind(steps, batch);
  if (step) {
    const auto found = std::find_if(steps.begin(), steps.end(),
                                    [&](const plan::Step* one) { return one->what == *step; });
    if (found == steps.end() && !step->empty()) {
      throw base::InputError("step", *step, "a step of the mash, by the plan's words");
    }
    at = static_cast<std::size_t>(found - steps.begin());
  } else if (batch.ferment.pitch) {
    wire::MashAdvice over;
    over.at = MashPlace::over;
    return over;
  }
  const bool all_done = at == steps.size();
  std::size_t sparges = 0;
  for (std::size_t i = 0; i < at; ++i) sparges += steps[i]->what.starts_with("Sparge") ? 1 : 0;
  wire::MashAdvice advice =
      Advising(made, *vessel, reading)
          .of(all_done ? MashPlace::pitching
                       : place_of(steps[at]->what, made.plan.mash.mash->cook.has_value()),
              sparges);
  if (!all_done) advice.step = steps[at]->what;
  return advice;
}

}  // namespace lynearm::station
