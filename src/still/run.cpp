#include "still/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "still/run_state.hpp"
#include "still/run_time.hpp"

namespace lynearm::still {
namespace {

// A pot of which this much is left, by moles, is dry.
constexpr double dry_share = 1e-3;
// A step changes the pot's ethanol by about this share, and its moles by at most `longest`.
constexpr double step_share = 0.05;
constexpr double longest_step = 0.02;

// What is integrated over u = ln(n0/n): the pot's mole fraction and two heats per mole of
// charge.
struct Integrated {
  double x = 0.0;
  double carried =
      0.0;            // heat carried off by vapour less that brought back, J per mole of charge
  double head = 0.0;  // heat given off by the head, the same
};

Integrated operator+(Integrated a, Integrated b) {
  return {a.x + b.x, a.carried + b.carried, a.head + b.head};
}
Integrated operator*(double k, Integrated a) { return {k * a.x, k * a.carried, k * a.head}; }

class PotStill {
 public:
  PotStill(const vapour::BoilingCurve& curve, units::Share reflux)
      : curve_(curve), reflux_(reflux), r_(reflux.fraction()) {}

  struct Vapours {
    double rising_y = 0.0;
    double reflux_x = 0.0;
    double spout_y = 0.0;
    vapour::Boiling pot, head;
  };

  // With nothing condensing the head is the pot over again.
  [[nodiscard]] Vapours vapours(double x, double near) const {
    const auto pot = units::MoleFraction::fraction(std::clamp(x, 0.0, 1.0));
    const vapour::Boiling boiling = curve_.at(pot);
    if (r_ == 0.0)
      return {boiling.vapour.fraction(), x, boiling.vapour.fraction(), boiling, boiling};
    const units::MoleFraction drop =
        curve_.first_drop(boiling.vapour, reflux_, units::MoleFraction::fraction(near));
    const vapour::Boiling head = curve_.at(drop);
    return {boiling.vapour.fraction(), drop.fraction(), head.vapour.fraction(), boiling, head};
  }

  // One classical Runge-Kutta step; also says where the first stage's drop was.
  [[nodiscard]] Integrated step(double u, const Integrated& s, double h, double near) const {
    const Integrated k1 = rate(u, s, near);
    const Integrated k2 = rate(u + 0.5 * h, s + 0.5 * h * k1, near);
    const Integrated k3 = rate(u + 0.5 * h, s + 0.5 * h * k2, near);
    const Integrated k4 = rate(u + h, s + h * k3, near);
    return s + (h / 6.0) * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
  }

 private:
  [[nodiscard]] Integrated rate(double u, const Integrated& s, double near) const {
    const Vapours v = vapours(s.x, near);
    const double left = std::exp(-u);
    const double rising_J = v.pot.vapour_enthalpy.joules_per_mole();
    const double back_J = r_ * v.head.liquid_enthalpy.joules_per_mole();
    const double on_J = (1.0 - r_) * v.head.vapour_enthalpy.joules_per_mole();
    return {-(v.spout_y - s.x), left * (rising_J - back_J) / (1.0 - r_),
            r_ == 0.0 ? 0.0 : left * (rising_J - on_J - back_J) / (1.0 - r_)};
  }

  const vapour::BoilingCurve& curve_;
  units::Share reflux_;
  double r_;
};

// One way a run can end: positive while it goes on.
struct Limit {
  Ending ending;
  std::function<double(const RunState&)> room;
};

std::vector<Limit> limits(const Charge& charge, double n0_mol, const Stop& stop) {
  std::vector<Limit> all;
  if (stop.spout_strength) {
    const double wanted = stop.spout_strength->fraction();
    all.push_back({Ending::spout_strength, [wanted](const RunState& s) {
                     return strength_of_mole_fraction(s.spout_y) - wanted;
                   }});
  }
  if (stop.head_temperature) {
    const double wanted_K = stop.head_temperature->kelvins();
    all.push_back({Ending::head_temperature,
                   [wanted_K](const RunState& s) { return wanted_K - s.head_K; }});
  }
  if (stop.collected) {
    const double wanted_L = stop.collected->litres();
    all.push_back({Ending::collected, [wanted_L, &charge, n0_mol](const RunState& s) {
                     return wanted_L - litres_20C(distilled(charge, n0_mol, s.u, s.pot_x));
                   }});
  }
  if (stop.least_in_pot) {
    const double least_L = stop.least_in_pot->litres();
    all.push_back({Ending::least_in_pot, [least_L, &charge, n0_mol](const RunState& s) {
                     const spirit::Lot left =
                         charge.spirit - distilled(charge, n0_mol, s.u, s.pot_x);
                     const double extract_L =
                         charge.extract.kilograms() * extract_litres_per_kg;
                     // No hot mixture is heavier than 1 kg/L: far from the limit that will do.
                     const double at_least_L = left.mass().kilograms() + extract_L;
                     if (at_least_L > 1.1 * least_L) return at_least_L - least_L;
                     return hot_volume(left, units::Temperature::kelvins(s.pot_K)).litres() +
                            extract_L - least_L;
                   }});
  }
  all.push_back(
      {Ending::pot_dry, [](const RunState& s) { return -std::log(dry_share) - s.u; }});
  return all;
}

[[noreturn]] void refuse_start(Ending ending, const Stop& stop, const RunState& start,
                               const Charge& charge) {
  switch (ending) {
    case Ending::spout_strength:
      throw base::InputError("run.stop.spout_strength",
                             fmt::format("{:.1f} %vol", stop.spout_strength->percent()),
                             fmt::format("less than the {:.1f} %vol of the first drop",
                                         100.0 * strength_of_mole_fraction(start.spout_y)));
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
    case Ending::pot_dry:
      break;
  }
  throw base::BrokenInvariant("a run does not start dry");
}

void check(const Charge& charge, const RunSetting& setting, const Stop& stop) {
  require_distillable(charge);
  const double r = setting.head_reflux.fraction();
  if (!(r >= 0.0 && r <= 0.9)) {
    throw base::InputError("run.head_reflux", fmt::format("{:.4g} %", 100.0 * r), "0 to 90 %");
  }
  if (!stop.spout_strength && !stop.head_temperature && !stop.collected && !stop.least_in_pot) {
    throw base::InputError("run.stop", "",
                           "a spout strength, a head temperature, a volume "
                           "collected or a least volume in the pot");
  }
}

}  // namespace

std::string_view words(Ending ending) {
  switch (ending) {
    case Ending::spout_strength:
      return "the spout fell to its strength";
    case Ending::head_temperature:
      return "the head rose to its temperature";
    case Ending::collected:
      return "the volume was collected";
    case Ending::least_in_pot:
      return "the pot fell to its least volume";
    case Ending::pot_dry:
      return "the pot boiled dry";
  }
  return "";
}

Run distil(const Charge& charge, const RunSetting& setting, const vapour::BoilingCurve& curve,
           const Stop& stop) {
  check(charge, setting, stop);
  const Moles start = moles(charge.spirit);
  const double n0_mol = start.total().moles();
  const PotStill still(curve, setting.head_reflux);

  const double start_x = start.fraction().fraction();
  const vapour::Boiling at_start = curve.at(start.fraction());
  const double fixed_J_per_K =
      setting.wall.joules_per_kelvin() + charge.extract.kilograms() * extract_kJ_per_kg_K * 1e3;
  const auto state_at = [&](double u, const Integrated& s, double near) {
    const PotStill::Vapours v = still.vapours(s.x, near);
    RunState state;
    state.u = u;
    state.pot_x = std::clamp(s.x, 0.0, 1.0);
    state.rising_y = v.rising_y;
    state.reflux_x = v.reflux_x;
    state.spout_y = v.spout_y;
    state.pot_K = v.pot.temperature.kelvins();
    state.head_K = v.head.temperature.kelvins();
    // The pot's own enthalpy exactly; what vapour and reflux carried, by the integral.
    state.into_pot_J = n0_mol * (std::exp(-u) * v.pot.liquid_enthalpy.joules_per_mole() -
                                 at_start.liquid_enthalpy.joules_per_mole() + s.carried) +
                       fixed_J_per_K * (v.pot.temperature - at_start.temperature).kelvins();
    state.head_heat_J = n0_mol * s.head;
    return state;
  };

  Run run{charge, setting, {}, Ending::pot_dry};
  run.points.reserve(256);
  Integrated s{start_x, 0.0, 0.0};
  double u = 0.0;
  RunState state = state_at(u, s, start_x);
  run.points.push_back(shown(charge, n0_mol, state));
  const std::vector<Limit> ends = limits(charge, n0_mol, stop);
  for (const Limit& limit : ends) {
    if (limit.room(state) <= 0.0) refuse_start(limit.ending, stop, state, charge);
  }

  bool ended = false;
  while (!ended) {
    // Below 1e-9 the pot is water, and steps need not follow its ethanol any more.
    const double change = std::abs(state.spout_y - s.x) / (s.x + 1e-9);
    const double h = std::min(longest_step, step_share / std::fmax(change, 1e-9));
    const double near = state.reflux_x;
    Integrated next = still.step(u, s, h, near);
    RunState reached = state_at(u + h, next, near);
    double taken = h;
    for (const Limit& limit : ends) {
      if (limit.room(reached) > 0.0) continue;
      // Every limit that is passed in this step: the first of them ends the run.
      const auto room_after = [&](double part) {
        return limit.room(state_at(u + part, still.step(u, s, part, near), near));
      };
      const double part = numeric::root_between(room_after, 0.0, h, "end of the run").value;
      if (!ended || part < taken) {
        taken = part;
        run.ending = limit.ending;
      }
      ended = true;
    }
    if (ended) {
      next = still.step(u, s, taken, near);
      reached = state_at(u + taken, next, near);
    }
    u += taken;
    s = next;
    state = reached;
    run.points.push_back(shown(charge, n0_mol, state));
  }
  add_time(run);
  return run;
}

units::Share head_reflux(units::HeatLoss head, units::Temperature ambient, units::Power net,
                         units::MoleFraction rising, const vapour::BoilingCurve& curve) {
  const double lost_W =
      head.watts_per_kelvin() * (curve.dew_temperature(rising) - ambient).kelvins();
  const double share = lost_W / net.watts();
  if (!(net.watts() > 0.0 && share >= 0.0 && share <= 0.9)) {
    throw base::InputError("head.loss", fmt::format("{:.0f} W", lost_W),
                           fmt::format("0 to 90 % of the net power of {:.0f} W", net.watts()));
  }
  return units::Share::fraction(share);
}

}  // namespace lynearm::still
