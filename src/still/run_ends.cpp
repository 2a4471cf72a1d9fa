#include "still/run_ends.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"

namespace lynearm::still {
namespace {

// A pot of which this much is left, by moles, is dry.
constexpr double dry_share = 1e-3;

void check_steps(const std::vector<PowerStep>& steps) {
  const auto refuse = [](const std::string& what) {
    throw base::InputError("run.power_steps", what, "volumes, and times, that rise");
  };
  double volume_L = -1.0;
  double time_s = -1.0;
  for (const PowerStep& step : steps) {
    if (!(step.power.watts() >= 0.0 && std::isfinite(step.power.watts()))) {
      throw base::InputError("run.power_steps", fmt::format("{:.4g} W", step.power.watts()),
                             "a power of zero or more");
    }
    if (const auto* volume = std::get_if<units::Volume>(&step.from)) {
      if (!(volume->litres() > volume_L)) {
        refuse(fmt::format("{:.3g} L after {:.3g} L", volume->litres(), volume_L));
      }
      volume_L = volume->litres();
    } else {
      const double s = std::get<units::Duration>(step.from).seconds();
      if (!(s > time_s)) {
        refuse(fmt::format("{:.4g} min after {:.4g} min", s / 60.0, time_s / 60.0));
      }
      time_s = s;
    }
  }
}

}  // namespace

std::vector<Limit> limits(const Charge& charge, const Stop& stop) {
  std::vector<Limit> all;
  if (stop.spout_strength) {
    const double wanted = stop.spout_strength->fraction();
    all.push_back({Ending::spout_strength, [wanted](const RunState& s) {
                     return strength_of_mole_fraction(s.spout_z) - wanted;
                   }});
  }
  if (stop.head_temperature) {
    const double wanted_K = stop.head_temperature->kelvins();
    all.push_back({Ending::head_temperature,
                   [wanted_K](const RunState& s) { return wanted_K - s.head_K; }});
  }
  if (stop.collected) {
    const double wanted_L = stop.collected->litres();
    all.push_back({Ending::collected, [wanted_L, &charge](const RunState& s) {
                     return wanted_L - litres_20C(distilled(charge, s));
                   }});
  }
  if (stop.least_in_pot) {
    const double least_L = stop.least_in_pot->litres();
    const double extract_L = charge.extract.kilograms() * extract_litres_per_kg;
    all.push_back({Ending::least_in_pot, [least_L, extract_L](const RunState& s) {
                     const spirit::Lot left =
                         lot({vapour::AmountOfSubstance::moles(s.pot_ethanol_mol),
                              vapour::AmountOfSubstance::moles(s.pot_water_mol)});
                     // No hot mixture is heavier than 1 kg/L: far from the limit that will do.
                     const double at_least_L = left.mass().kilograms() + extract_L;
                     if (at_least_L > 1.1 * least_L) return at_least_L - least_L;
                     return hot_volume(left, units::Temperature::kelvins(s.pot_K)).litres() +
                            extract_L - least_L;
                   }});
  }
  if (stop.after) {
    const double until_s = stop.after->seconds();
    all.push_back({Ending::time, [until_s](const RunState& s) { return until_s - s.t_s; }});
  }
  const double dry_mol = dry_share * moles(charge.spirit).total().moles();
  all.push_back(
      {Ending::pot_dry, [dry_mol](const RunState& s) { return s.pot_mol() / dry_mol - 1.0; }});
  return all;
}

void refuse_start(Ending ending, const Stop& stop, const RunState& start,
                  const Charge& charge) {
  switch (ending) {
    case Ending::spout_strength:
      throw base::InputError("run.stop.spout_strength",
                             fmt::format("{:.1f} %vol", stop.spout_strength->percent()),
                             fmt::format("less than the {:.1f} %vol of the first drop",
                                         100.0 * strength_of_mole_fraction(start.spout_z)));
    case Ending::head_temperature:
      throw base::InputError(
          "run.stop.head_temperature",
          fmt::format("{:.1f} °C", stop.head_temperature->celsius()),
          fmt::format("more than the {:.1f} °C of the first vapour", start.head_K - 273.15));
    case Ending::collected:
      throw base::InputError("run.stop.collected",
                             fmt::format("{:.3g} L", stop.collected->litres()),
                             "more than 0 L");
    case Ending::least_in_pot:
      throw base::InputError(
          "run.stop.least_in_pot", fmt::format("{:.1f} L", stop.least_in_pot->litres()),
          fmt::format("less than the charge at its boil, {:.1f} L",
                      volume(charge, units::Temperature::kelvins(start.pot_K)).litres()));
    case Ending::time:
      throw base::InputError(
          "run.stop.after", fmt::format("{:.1f} min", stop.after->minutes()),
          fmt::format("more than the {:.1f} min to the first drop", start.t_s / 60.0));
    case Ending::pot_dry:
      break;
  }
  throw base::InputError("run.hold_up", "more than the charge",
                         "less than the charge gives before the pot is dry");
}

void check(const Charge& charge, const RunSetting& setting, const Stop& stop) {
  require_distillable(charge);
  check_steps(setting.power_steps);
  for (const units::Volume held : {setting.hold_up.condenser, setting.hold_up.parrot}) {
    if (!(held >= units::Volume{} && std::isfinite(held.litres()))) {
      throw base::InputError("run.hold_up", fmt::format("{:.4g} L", held.litres()),
                             "a volume of zero or more");
    }
  }
  if (!(setting.tolerance >= 1e-14 && setting.tolerance <= 1e-3)) {
    throw base::InputError("run.tolerance", fmt::format("{:.3g}", setting.tolerance),
                           "1e-14 to 1e-3");
  }
  if (!stop.spout_strength && !stop.head_temperature && !stop.collected && !stop.least_in_pot &&
      !stop.after) {
    throw base::InputError(
        "run.stop", "",
        "a spout strength, a head temperature, a volume collected, a time or "
        "a least volume in the pot");
  }
}

}  // namespace lynearm::still
