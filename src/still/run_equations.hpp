// Inside a run: what is integrated, and one differential equation for each phase.
//   below    the pot is under its boil: it warms, or cools when the fire is out
//   warming  the pot boils, but all that rises condenses on a head that is still cold
//   running  vapour passes; the pot moves along its boiling line
// Heat and head are those of boil.hpp. Knows the fire that burns, but not when it changes nor
// when a phase ends: that is course.hpp's.
#pragma once

#include <array>

#include "numeric/steps.hpp"
#include "still/boil.hpp"
#include "still/run.hpp"

namespace lynearm::still {

enum class Phase { below, warming, running };

class RunEquations {
 public:
  // Amounts in the pot and heats in all since the start, by the letters of their units. Traces
  // by the logarithm of what has left the pot, since the most volatile leave it far faster than
  // ethanol does: d(log)/dt = D K / n.
  enum : std::size_t { ethanol, water, pot_K, head_K, drawn_J, net_J, head_J, vapour_J, gone };
  static constexpr std::size_t size = gone + vapour::congener_count;
  using State = std::array<double, size>;
  using Steps = numeric::AdaptiveSteps<size>;
  using Step = numeric::TakenStep<size>;

  /// With less ethanol than this share of the charge, by moles, the pot is water: steps and
  /// points need not follow it further down.
  static constexpr double water_share = 1e-9;

  /// All that is given outlives it. volatility: none when no congeners are followed.
  RunEquations(const Charge& charge, const RunSetting& setting,
               const vapour::BoilingCurve& curve, const vapour::CongenerCurve* volatility);

  [[nodiscard]] State start() const;
  /// Sizes below which an error no longer counts as relative.
  [[nodiscard]] State floor() const;
  void rate(Phase phase, const State& state, State& slope);

  /// The fire that burns.
  void draw(units::Power power) { heating_.power = power; }
  [[nodiscard]] units::Power drawn() const { return heating_.power; }
  /// What reaches a pot of a temperature, W.
  [[nodiscard]] double net_W(double temperature_K) const {
    return net_power(heating_, units::Temperature::kelvins(temperature_K)).watts();
  }

  [[nodiscard]] double boil_K(const State& state) const;
  /// What the head takes of the heat before vapour passes it, W.
  [[nodiscard]] double head_takes_W(const State& state) const;
  /// A pot of n moles, x of them ethanol, boiling over this fire.
  [[nodiscard]] Boil boil(double n, double x, double net_W) {
    return boiling_.at(n, x, net_W, guess_);
  }
  /// Whether the head would take all of it; leaves no mark.
  [[nodiscard]] bool would_stall(const State& state) const;
  /// Whether the head has, somewhere in the steps since it was last forgotten.
  [[nodiscard]] bool stalled() const { return stalled_; }
  void forget_stall() { stalled_ = false; }

  [[nodiscard]] const BoilingPot& boiling() const { return boiling_; }
  [[nodiscard]] const vapour::BoilingCurve& curve() const { return curve_; }
  [[nodiscard]] const vapour::CongenerCurve* volatility() const { return volatility_; }
  [[nodiscard]] double charged_mol() const { return n0_mol_; }

 private:
  void rate_below(const State& state, State& slope) const;
  void rate_warming(const State& state, State& slope) const;
  void rate_running(const State& state, State& slope);

  const Charge& charge_;
  const RunSetting& setting_;
  const vapour::BoilingCurve& curve_;
  const vapour::CongenerCurve* volatility_;
  Heating heating_;
  double warmed_J_per_K_;  // metal and extract
  BoilingPot boiling_;
  double n0_mol_;
  BoilingPot::Guess guess_;
  bool stalled_ = false;
};

}  // namespace lynearm::still
