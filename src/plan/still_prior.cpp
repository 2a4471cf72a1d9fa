#include "plan/still_prior.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "numeric/normal.hpp"
#include "plan/still_setting.hpp"
#include "units/print.hpp"

namespace lynearm::plan {
namespace {

// Coil and parrot must be a small part of the charge, or the spout tells nothing of the pot.
constexpr double least_of_hold_up = 5.0;
constexpr double not_gauged = 0.10;
// Of the heating, before a run was logged: an element is off by its mains and its own make, of
// a plate or a flame the share that gets in is a guess (our estimates).
constexpr double of_an_element = 0.10, of_other_heat = 0.15;
// A run that tells a head's loss to 10 % tells the efficiency to 4 (docs/rooms/still.md,
// calibration); from day to day mains differ by so much all the same (our estimate).
constexpr double beside_head_loss = 0.4, of_the_day = 0.03;
// Nobody says how warm the charge is when the heat is lit, nor when just that was (our
// estimate).
constexpr double charge_start_K = 4.0;

// How far what a kit states may be off, on the scale of a logarithm.
template <class Spread>
double log_sd(const Spread& spread, double otherwise) {
  const double share = spread.half_width_80 / spread.median;
  return share > 0.0 && std::isfinite(share) ? std::log1p(share) / numeric::half_of_80
                                             : otherwise;
}

}  // namespace

still::StillPrior still_prior(const Kit& kit, const RunAhead& run) {
  still::StillPrior prior;
  prior.charge.spirit = run.charge;
  units::Power running = run.power.value_or(running_power(kit, run.gentle));
  if (run.from_the_start) {
    running = run.gentle ? std::min(running, *run.from_the_start) : *run.from_the_start;
  }
  prior.setting = run_setting(kit, running, run.gentle);
  if (run.from_the_start) prior.setting.to_the_boil = run.from_the_start;
  if (run.head_loss) {
    prior.setting.head.fixed_reflux = std::nullopt;
    prior.setting.head.loss = *run.head_loss;
  }
  const units::Volume held = prior.setting.hold_up.condenser + prior.setting.hold_up.parrot;
  const units::Volume least =
      std::max(units::Volume::millilitres(500.0), held * least_of_hold_up);
  const units::Volume charge = spirit::volume(run.charge);
  if (charge < least) {
    throw base::InputError("charge", units::print(charge),
                           "a volume of " + units::print(least) + " or more in this still");
  }
  prior.element_covered_above = kit.still.boiler.element_covered_above;
  still::StillSpread& sd = prior.spread;
  if (kit.still.head_loss && !run.head_loss) {
    sd.head_loss_log = log_sd(*kit.still.head_loss, sd.head_loss_log);
  } else if (prior.setting.head.fixed_reflux) {
    sd.head_loss_log =
        log_sd(run.gentle ? kit.still.head_reflux_spirit : kit.still.head_reflux_strip,
               sd.head_loss_log);
  }
  sd.efficiency_log =
      kit.still.boiler.heat == BoilerHeat::element ? of_an_element : of_other_heat;
  // A loss that is told more narrowly than it can be guessed was learnt from a run.
  if (kit.still.head_loss && !run.head_loss) {
    sd.efficiency_log =
        std::clamp(beside_head_loss * sd.head_loss_log, of_the_day, sd.efficiency_log);
  }
  sd.charge_start_K = charge_start_K;
  if (!run.charge_gauged) sd.charge_strength_log = not_gauged;
  sd.pot_loss_log = log_sd(kit.constants.heat_loss_factor, sd.pot_loss_log);
  sd.pot_thermometer_K = sd.head_thermometer_K =
      kit.instruments.thermometer.kelvins() / numeric::half_of_80;
  sd.hydrometer_percent = kit.instruments.alcoholmeter.percent() / numeric::half_of_80;
  return prior;
}

still::CutRules cut_rules(const Recipe& recipe, const RunAhead& run) {
  still::CutRules rules;
  if (!run.gentle) {
    rules.tails_near.reset();
    rules.stop = recipe.strip.stop;
    return rules;
  }
  rules.foreshots_end = recipe.spirit_run.foreshots_end.value_or(
      Border(spirit::volume(run.charge) * usual_foreshots_end));
  rules.heads_end = recipe.spirit_run.heads_end.value_or(
      Border(spirit::volume(run.charge) * usual_heads_end));
  rules.hearts_end = recipe.spirit_run.hearts_end;
  rules.stop = recipe.spirit_run.tails_end;
  return rules;
}

}  // namespace lynearm::plan
