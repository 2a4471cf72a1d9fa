// Inside a run: the still as a system with three phases, one differential equation each.
//   below    the pot is under its boil: it warms, or cools when the fire is out
//   warming  the pot boils, but all that rises condenses on a head that is still cold
//   running  vapour passes; the pot moves along its boiling line
// Changes of phase and of the fire are events in time.
#pragma once

#include <array>
#include <string_view>
#include <vector>

#include "numeric/steps.hpp"
#include "still/boil.hpp"
#include "still/hold_up.hpp"
#include "still/run.hpp"
#include "still/run_ends.hpp"
#include "still/run_state.hpp"

namespace lynearm::still {

class Course {
 public:
  Course(const Charge& charge, const RunSetting& setting, const vapour::BoilingCurve& curve,
         const Stop& stop, const vapour::CongenerCurve* volatility);
  [[nodiscard]] Run go();

 private:
  // What is integrated. Traces by the logarithm of what has left the pot, since the most
  // volatile leave it far faster than ethanol does: d(log)/dt = D K / n.
  enum : std::size_t { ethanol, water, pot_K, head_K, drawn_J, net_J, head_J, vapour_J, gone };
  static constexpr std::size_t size = gone + vapour::congener_count;
  using State = std::array<double, size>;
  enum class Phase { below, warming, running };

  // A state on the way to the jar: what coil and parrot hold after it.
  struct Reached {
    RunState state;
    Tank coil, parrot;
    std::array<double, vapour::congener_count> pot_g;
    std::array<double, vapour::congener_count> leaving_g_per_mol;
  };

  void rate(const State& state, State& slope, double t) const;
  [[nodiscard]] double mean_net_W(double pot_temperature_K) const;
  [[nodiscard]] double boil_K(const State& state) const;
  [[nodiscard]] Reached reach(const State& state, double t) const;

  void warm_pot();
  void warm_head();
  void distil();
  void begin_running();
  // Makes what was reached the run's latest moment.
  void commit(const Reached& reached);

  void start_steps(double first_step_s);
  void advance(double longest_s);
  void shorten(double t);
  template <class Room>
  [[nodiscard]] double when(Room&& room, double from, double to, std::string_view what) const;

  [[nodiscard]] double next_change_s() const;
  [[nodiscard]] double next_due_s() const;
  [[nodiscard]] bool ends_by_time();
  [[nodiscard]] double head_takes_W(const State& state) const;
  [[nodiscard]] bool pass_change();
  void quiet(double t, const State& state);
  [[nodiscard]] int parts_of_step() const;
  [[noreturn]] void refuse_power(double more_W) const;

  const Charge& charge_;
  const RunSetting& setting_;
  const vapour::BoilingCurve& curve_;
  const Stop& stop_;
  const vapour::CongenerCurve* volatility_;
  std::vector<Limit> limits_;
  std::vector<PowerStep> by_volume_, by_time_;
  BoilingPot boiling_;
  double fixed_J_per_K_;
  double n0_mol_;

  Phase phase_ = Phase::below;
  double power_W_;
  double t_ = 0.0;
  State state_{};
  State floor_{};
  numeric::AdaptiveSteps<size> steps_;
  mutable BoilingPot::Guess guess_;
  mutable bool stalled_ = false;

  std::size_t next_volume_ = 0, next_time_ = 0;
  bool boiled_ = false;
  bool to_the_boil_ = false;
  bool spout_runs_ = false;
  bool stretch_begins_ = true;
  bool ended_ = false;
  double boiling_s_ = 0.0, drawn_to_boil_J_ = 0.0, net_to_boil_J_ = 0.0;
  Reached here_;
  Run run_;
};

}  // namespace lynearm::still
