#include "still/follow_prior.hpp"

#include <algorithm>
#include <cmath>

#include "spirit/lot.hpp"

namespace lynearm::still {
namespace {

struct Named {
  std::string_view words, unit, key;
};
constexpr std::array<Named, constant_count> names = {{
    {"head loss", "W/K", "head_loss_W_per_K"},
    {"pot loss", "W/K", "pot_loss_W_per_K"},
    {"heating efficiency", "%", "heating_efficiency_percent"},
    {"charge strength", "%vol", "charge_percent_vol"},
    {"charge volume", "L", "charge_L_20C"},
    {"held in coil and parrot", "mL", "hold_up_mL"},
    {"charge at heat on", "°C", "charge_start_C"},
    {"pot thermometer shows", "K", "pot_thermometer_offset_K"},
    {"head thermometer shows", "K", "head_thermometer_offset_K"},
    {"hydrometer shows", "%vol", "hydrometer_offset_percent_vol"},
    {"jar shows", "%", "jar_offset_percent"},
}};

double of(const Standing& standing, Constant constant) {
  return standing[static_cast<std::size_t>(constant)];
}

// Of the charge: with less left a pot counts as nearly dry.
constexpr double nearly_dry = 0.05;
// The most of a charge that may be alcohol, and of a vapour that may run back.
constexpr double strongest = 0.96;
constexpr double most_back = 0.9;
// A charge is no ice, and no pot is filled near the boil, °C.
constexpr double coldest_C = 0.5, warmest_C = 70.0;

}  // namespace

std::string_view words(Constant constant) {
  return names[static_cast<std::size_t>(constant)].words;
}
std::string_view unit(Constant constant) {
  return names[static_cast<std::size_t>(constant)].unit;
}
std::string_view key(Constant constant) {
  return names[static_cast<std::size_t>(constant)].key;
}

PotFloor pot_floor(const StillPrior& prior) {
  if (prior.element_covered_above > units::Volume{}) return {prior.element_covered_above, true};
  return {spirit::volume(prior.charge.spirit) * nearly_dry, false};
}

StillSpread widened(const StillSpread& spread) {
  StillSpread wide = spread;
  wide.head_loss_log *= 2.0;
  wide.pot_loss_log *= 2.0;
  wide.efficiency_log = std::fmax(2.5 * spread.efficiency_log, 0.25);
  wide.charge_strength_log *= 2.5;
  wide.charge_volume_log *= 2.5;
  wide.hold_up_log *= 2.0;
  wide.charge_start_K = std::fmax(2.5 * spread.charge_start_K, 12.0);
  wide.pot_thermometer_K *= 3.0;
  wide.head_thermometer_K *= 3.0;
  wide.hydrometer_percent *= 3.0;
  wide.jar_percent *= 3.0;
  return wide;
}

std::array<double, constant_count> deviations(const StillSpread& spread) {
  return {spread.head_loss_log,       spread.pot_loss_log,      spread.efficiency_log,
          spread.charge_strength_log, spread.charge_volume_log, spread.hold_up_log,
          spread.charge_start_K,      spread.pot_thermometer_K, spread.head_thermometer_K,
          spread.hydrometer_percent,  spread.jar_percent};
}

bool beyond_belief(const Standing& standing) {
  return std::any_of(standing.begin(), standing.begin() + run_constants,
                     [](double z) { return !(std::abs(z) <= 6.0); });
}

PossibleStill possible_still(const StillPrior& prior, const Standing& standing) {
  const StillSpread& sd = prior.spread;
  const auto factor = [&standing](Constant constant, double log_sd) {
    return std::exp(log_sd * of(standing, constant));
  };
  PossibleStill still{prior.charge, prior.setting};
  const double head = factor(Constant::head_loss, sd.head_loss_log);
  if (still.setting.head.fixed_reflux) {
    still.setting.head.fixed_reflux = units::Share::fraction(
        std::fmin(still.setting.head.fixed_reflux->fraction() * head, most_back));
  }
  still.setting.head.loss = prior.setting.head.loss * head;
  still.setting.heating.loss =
      prior.setting.heating.loss * factor(Constant::pot_loss, sd.pot_loss_log);
  still.setting.heating.efficiency =
      prior.setting.heating.efficiency * factor(Constant::efficiency, sd.efficiency_log);
  const double held = factor(Constant::hold_up, sd.hold_up_log);
  still.setting.hold_up.condenser = prior.setting.hold_up.condenser * held;
  still.setting.hold_up.parrot = prior.setting.hold_up.parrot * held;
  const units::VolumeStrength strength = units::VolumeStrength::fraction(
      std::fmin(spirit::strength(prior.charge.spirit).fraction() *
                    factor(Constant::charge_strength, sd.charge_strength_log),
                strongest));
  const double volume = factor(Constant::charge_volume, sd.charge_volume_log);
  still.charge.spirit = spirit::lot(spirit::volume(prior.charge.spirit) * volume, strength);
  still.charge.extract = prior.charge.extract * volume;
  const double stated_C = prior.charge.temperature.celsius();
  still.charge.temperature = units::Temperature::celsius(
      std::clamp(stated_C + sd.charge_start_K * of(standing, Constant::charge_start),
                 std::fmin(coldest_C, stated_C), std::fmax(warmest_C, stated_C)));
  return still;
}

double value_of(Constant constant, const StillPrior& prior, const Standing& standing) {
  const PossibleStill still = possible_still(prior, standing);
  switch (constant) {
    case Constant::head_loss:
      return still.setting.head.fixed_reflux ? still.setting.head.fixed_reflux->percent()
                                             : still.setting.head.loss.watts_per_kelvin();
    case Constant::pot_loss:
      return still.setting.heating.loss.watts_per_kelvin();
    case Constant::efficiency:
      return still.setting.heating.efficiency.percent();
    case Constant::charge_strength:
      return spirit::strength(still.charge.spirit).percent();
    case Constant::charge_volume:
      return spirit::volume(still.charge.spirit).litres();
    case Constant::hold_up:
      return (still.setting.hold_up.condenser + still.setting.hold_up.parrot).millilitres();
    case Constant::charge_start:
      return still.charge.temperature.celsius();
    case Constant::pot_thermometer:
      return prior.spread.pot_thermometer_K * of(standing, constant);
    case Constant::head_thermometer:
      return prior.spread.head_thermometer_K * of(standing, constant);
    case Constant::hydrometer:
      return prior.spread.hydrometer_percent * of(standing, constant);
    case Constant::jar:
      return prior.spread.jar_percent * of(standing, constant);
  }
  return 0.0;
}

}  // namespace lynearm::still
