#include "still/run_equations.hpp"

#include <algorithm>
#include <cmath>

#include "vapour/enthalpy.hpp"

namespace lynearm::still {

RunEquations::RunEquations(const Charge& charge, const RunSetting& setting,
                           const vapour::BoilingCurve& curve,
                           const vapour::CongenerCurve* volatility)
    : charge_(charge),
      setting_(setting),
      curve_(curve),
      volatility_(charge.congeners ? volatility : nullptr),
      heating_(setting.heating),
      warmed_J_per_K_((setting.wall + extract_heat(charge)).joules_per_kelvin()),
      boiling_(curve, setting.head, setting.heating.ambient, warmed_J_per_K_),
      n0_mol_(moles(charge.spirit).total().moles()) {
  heating_.power = setting.to_the_boil.value_or(setting.heating.power);
}

RunEquations::State RunEquations::start() const {
  State state{};
  const Moles in_pot = moles(charge_.spirit);
  state[ethanol] = in_pot.ethanol.moles();
  state[water] = in_pot.water.moles();
  state[pot_K] = charge_.temperature.kelvins();
  state[head_K] = setting_.heating.ambient.kelvins();
  return state;
}

// Next to nothing of the charge, a hundredth of the heat that boils it away, a kelvin.
RunEquations::State RunEquations::floor() const {
  State least{};
  least.fill(1.0);
  least[ethanol] = least[water] = water_share * n0_mol_;
  least[drawn_J] = least[net_J] = least[head_J] = least[vapour_J] = 400.0 * n0_mol_;
  return least;
}

double RunEquations::boil_K(const State& state) const {
  return curve_
      .temperature(
          units::MoleFraction::fraction(state[ethanol] / (state[ethanol] + state[water])))
      .kelvins();
}

double RunEquations::head_takes_W(const State& state) const {
  if (setting_.head.fixed_reflux) return 0.0;
  const double x = state[ethanol] / (state[ethanol] + state[water]);
  return boiling_.given_off_W(boiling_.passing_K(x));
}

bool RunEquations::would_stall(const State& state) const {
  BoilingPot::Guess guess = guess_;
  const double n = state[ethanol] + state[water];
  return boiling_.at(n, state[ethanol] / n, net_W(state[pot_K]), guess).stalled;
}

void RunEquations::rate(Phase phase, const State& state, State& slope) {
  slope.fill(0.0);
  slope[drawn_J] = heating_.power.watts();
  switch (phase) {
    case Phase::below:
      return rate_below(state, slope);
    case Phase::warming:
      return rate_warming(state, slope);
    case Phase::running:
      return rate_running(state, slope);
  }
}

void RunEquations::rate_below(const State& state, State& slope) const {
  const double n = state[ethanol] + state[water];
  const auto x = units::MoleFraction::fraction(state[ethanol] / n);
  const double K = std::clamp(state[pot_K], 273.15, 383.15);
  const double J_per_K = n * vapour::liquid_heat_capacity(x, units::Temperature::kelvins(K))
                                 .joules_per_mole_kelvin() +
                         warmed_J_per_K_;
  slope[net_J] = net_W(state[pot_K]);
  slope[pot_K] = slope[net_J] / J_per_K;
  // A head that was hot cools while nothing rises.
  const Head& head = setting_.head;
  if (head.wall > units::HeatCapacity{}) {
    slope[head_K] = -head.loss.watts_per_kelvin() *
                    (state[head_K] - heating_.ambient.kelvins()) /
                    head.wall.joules_per_kelvin();
  }
}

void RunEquations::rate_warming(const State& state, State& slope) const {
  slope[net_J] = net_W(state[pot_K]);
  slope[head_J] = slope[net_J];
  slope[head_K] = (slope[net_J] - boiling_.given_off_W(state[head_K])) /
                  setting_.head.wall.joules_per_kelvin();
  // A cooled head comes down to the room, where its coolant is taken to be.
  if (state[head_K] <= heating_.ambient.kelvins()) {
    slope[head_K] = std::fmax(slope[head_K], 0.0);
  }
}

void RunEquations::rate_running(const State& state, State& slope) {
  const double e = std::fmax(state[ethanol], 0.0);
  const double n = std::fmax(e + std::fmax(state[water], 0.0), 1e-9 * n0_mol_);
  const double x = std::clamp(e / n, 0.0, 1.0);
  const double K = curve_.temperature(units::MoleFraction::fraction(x)).kelvins();
  slope[net_J] = net_W(K);
  const Boil now = boil(n, x, slope[net_J]);
  if (now.stalled) {
    stalled_ = true;
    if (slope[net_J] > 0.0) slope[head_J] = slope[net_J];
    return;
  }
  slope[ethanol] = -now.on_mol_s * now.passage.leaving_y;
  slope[water] = -now.on_mol_s * (1.0 - now.passage.leaving_y);
  slope[head_J] = now.head_W;
  slope[vapour_J] = now.on_mol_s * now.passage.top.vapour_enthalpy.joules_per_mole();
  if (volatility_ != nullptr) {
    const std::span<double, vapour::congener_count> leaving(&slope[gone],
                                                            vapour::congener_count);
    boiling_.rectifier().pass_congeners(*volatility_, x, now.share, now.passage, leaving);
    for (double& k : leaving) k *= now.on_mol_s / n;
  }
}

}  // namespace lynearm::still
