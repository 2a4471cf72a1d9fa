#include "plan/still_prior.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "plan/still_setting.hpp"
#include "units/print.hpp"

namespace lynearm::plan {
namespace {

// Half a band of 80 % over this is a standard deviation of a normal.
constexpr double band_80 = 1.2816;
// Coil and parrot must be a small part of the charge, or the spout tells nothing of the pot.
constexpr double least_of_hold_up = 5.0;
constexpr double usual_heads_end = 0.025;

// How far what a kit states may be off, on the scale of a logarithm.
template <class Spread>
double log_sd(const Spread& spread, double otherwise) {
  const double share = spread.half_width_80 / spread.median;
  return share > 0.0 && std::isfinite(share) ? std::log1p(share) / band_80 : otherwise;
}

}  // namespace

still::StillPrior still_prior(const Kit& kit, const RunAhead& run) {
  still::StillPrior prior;
  prior.charge.spirit = run.charge;
  prior.setting =
      run_setting(kit, run.power.value_or(running_power(kit, run.gentle)), run.gentle);
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
  sd.pot_loss_log = log_sd(kit.constants.heat_loss_factor, sd.pot_loss_log);
  sd.pot_thermometer_K = sd.head_thermometer_K =
      kit.instruments.thermometer.kelvins() / band_80;
  sd.hydrometer_percent = kit.instruments.alcoholmeter.percent() / band_80;
  return prior;
}

still::CutRules cut_rules(const Recipe& recipe, const RunAhead& run) {
  still::CutRules rules;
  if (!run.gentle) {
    rules.tails_near.reset();
    rules.stop = recipe.strip.stop;
    return rules;
  }
  rules.heads_end = recipe.spirit_run.heads_end.value_or(
      Border(spirit::volume(run.charge) * usual_heads_end));
  rules.hearts_end = recipe.spirit_run.hearts_end;
  rules.stop = recipe.spirit_run.tails_end;
  return rules;
}

}  // namespace lynearm::plan
