#include "still/fit_constants.hpp"

#include <array>
#include <cmath>

#include "base/error.hpp"
#include "spirit/strength.hpp"
#include "still/todays_air.hpp"

namespace lynearm::still {
namespace {

struct About {
  StillConstant constant;
  std::string_view words, unit;
  bool of_a_run, factor;
  double Figures::*figure;
};

constexpr std::array<About, 11> abouts = {{
    {StillConstant::head_loss, "head loss", "W/K", false, true, &Figures::head_loss_W_per_K},
    {StillConstant::pot_loss, "pot loss", "W/K", false, true, &Figures::pot_loss_W_per_K},
    {StillConstant::heating_efficiency, "heating efficiency", "", false, true,
     &Figures::efficiency},
    {StillConstant::hold_up, "hold-up", "L", false, true, &Figures::hold_up_L},
    {StillConstant::pot_thermometer, "pot thermometer", "K", false, false,
     &Figures::pot_offset_K},
    {StillConstant::head_thermometer, "head thermometer", "K", false, false,
     &Figures::head_offset_K},
    {StillConstant::hydrometer, "hydrometer", "%vol", false, false,
     &Figures::hydrometer_percent},
    {StillConstant::charge_strength, "charge strength", "%vol", true, false,
     &Figures::strength_percent},
    {StillConstant::charge_volume, "charge volume", "", true, true, &Figures::volume_factor},
    {StillConstant::charge_temperature, "charge temperature", "K", true, false,
     &Figures::charge_K},
    {StillConstant::first_power, "power at first", "", true, true, &Figures::first_power},
}};

const About& about(StillConstant constant) {
  const auto i = static_cast<std::size_t>(constant);
  base::ensure(i < abouts.size() && abouts[i].constant == constant, "constants are in order");
  return abouts[i];
}

}  // namespace

std::string_view words(StillConstant constant) { return about(constant).words; }
std::string_view unit_of(StillConstant constant) { return about(constant).unit; }
bool is_of_a_run(StillConstant constant) { return about(constant).of_a_run; }
bool is_a_factor(StillConstant constant) { return about(constant).factor; }

Belief belief(StillConstant constant, const Charge& charge, const RunSetting& setting,
              int run) {
  const auto stated_or = [constant](double stated, double spread, double otherwise,
                                    double wide) {
    return stated > 0.0 ? Belief{constant, stated, spread} : Belief{constant, otherwise, wide};
  };
  switch (constant) {
    case StillConstant::head_loss:
      return stated_or(setting.head.loss.watts_per_kelvin(), 0.7, 3.0, 1.0);
    case StillConstant::pot_loss:
      return stated_or(setting.heating.loss.watts_per_kelvin(), 0.5, 6.0, 0.7);
    case StillConstant::heating_efficiency:
      return {constant, setting.heating.efficiency.fraction(), 0.1};
    case StillConstant::hold_up:
      return stated_or((setting.hold_up.condenser + setting.hold_up.parrot).litres(), 0.7, 0.15,
                       1.0);
    case StillConstant::pot_thermometer:
    case StillConstant::head_thermometer:
      return {constant, 0.0, thermometer_sd.kelvins()};
    case StillConstant::hydrometer:
      return {constant, 0.0, 0.5};
    case StillConstant::charge_strength:
      return {constant, 0.0, 0.04 * spirit::strength(charge.spirit).percent(), run};
    case StillConstant::charge_volume:
      return {constant, 1.0, 0.03, run};
    case StillConstant::charge_temperature:
      return {constant, 0.0, 1.5, run};
    case StillConstant::first_power:
      return {constant, 1.0, 0.01, run};
  }
  throw base::BrokenInvariant("a constant without a belief");
}

double figure_at(const Belief& belief, double steps) {
  return is_a_factor(belief.constant) ? belief.value * std::exp(steps * belief.spread)
                                      : belief.value + steps * belief.spread;
}

double& Figures::of(StillConstant constant) { return this->*about(constant).figure; }

bool Figures::same_run(const Figures& other) const {
  return head_loss_W_per_K == other.head_loss_W_per_K &&
         pot_loss_W_per_K == other.pot_loss_W_per_K && efficiency == other.efficiency &&
         hold_up_L == other.hold_up_L && strength_percent == other.strength_percent &&
         volume_factor == other.volume_factor && charge_K == other.charge_K &&
         first_power == other.first_power;
}

Charge with(Charge charge, const Figures& figures) {
  const units::Volume volume = spirit::volume(charge.spirit) * figures.volume_factor;
  charge.spirit = spirit::lot(
      volume, units::VolumeStrength::percent(spirit::strength(charge.spirit).percent() +
                                             figures.strength_percent));
  charge.temperature = charge.temperature + units::TemperatureChange::kelvins(figures.charge_K);
  return charge;
}

RunSetting with(RunSetting setting, const Figures& figures) {
  setting.head.fixed_reflux.reset();
  setting.head.loss = units::HeatLoss::watts_per_kelvin(figures.head_loss_W_per_K);
  setting.heating.loss = units::HeatLoss::watts_per_kelvin(figures.pot_loss_W_per_K);
  setting.heating.efficiency = units::Share::fraction(figures.efficiency);
  const units::Volume stated = setting.hold_up.condenser + setting.hold_up.parrot;
  const double in_coil = stated > units::Volume{} ? setting.hold_up.condenser / stated : 0.0;
  setting.hold_up.condenser = units::Volume::litres(figures.hold_up_L * in_coil);
  setting.hold_up.parrot = units::Volume::litres(figures.hold_up_L * (1.0 - in_coil));
  // Before any change: to the boil, where the kit has a power of its own for that.
  units::Power& first = setting.to_the_boil ? *setting.to_the_boil : setting.heating.power;
  first = first * figures.first_power;
  return setting;
}

}  // namespace lynearm::still
