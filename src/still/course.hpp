// Inside a run: the still from one phase into the next. The equations of each phase are those
// of run_equations.hpp; here is when a phase ends, when the fire changes, and what of it all is
// kept as the run. Sources: course.cpp begins, keeps and goes from phase to phase;
// course_quiet.cpp while nothing runs; course_running.cpp spirit running; course_events.cpp
// finds the moments.
#pragma once

#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "still/hold_up.hpp"
#include "still/run.hpp"
#include "still/run_ends.hpp"
#include "still/run_equations.hpp"
#include "still/run_state.hpp"

namespace lynearm::still {

class Course {
 public:
  Course(const Charge& charge, const RunSetting& setting, const vapour::BoilingCurve& curve,
         const Stop& stop, const vapour::CongenerCurve* volatility);
  [[nodiscard]] Run go();

 private:
  using Equations = RunEquations;
  using State = RunEquations::State;
  // What was aimed at counts as come within this share of itself.
  static constexpr double rounding = 1e-12;

  // A state on the way to the jar: what coil and parrot hold after it.
  struct Reached {
    RunState state;
    Tank coil, parrot;
    std::array<double, vapour::congener_count> pot_g{};
    std::array<double, vapour::congener_count> leaving_g_per_mol{};
  };
  // What cuts a part of a step short, and when by the step's cubic. `room` is above zero before
  // it.
  struct Happening {
    enum class Kind { spout, ending, power } kind;
    double at_s;
    std::function<double(const Reached&)> room;
    Ending ending = Ending::pot_dry;
  };

  // course.cpp
  void come_to_boil();
  [[nodiscard]] double next_change_s() const;
  [[nodiscard]] double next_due_s() const;
  [[nodiscard]] bool pass_change();
  [[nodiscard]] bool ends_by_time();
  void start_steps(double first_step_s);
  void advance(double longest_s);
  void shorten(double t);
  void quiet(double t, const State& state);
  [[nodiscard]] Reached reach(const State& state, double t);
  void commit(const Reached& reached);
  void let_run(const RunState& first);
  [[noreturn]] void refuse_power(double more_W) const;

  // course_quiet.cpp
  void warm_pot();
  void warm_head();
  [[nodiscard]] bool warm_pot_by_a_step(double boiling_K, double longest_s);
  void warm_head_by_a_step(double passing_K, double longest_s);
  void stand(double until_s);
  void fall_under_boil();

  // course_running.cpp
  void distil();
  void begin_running();
  [[nodiscard]] double longest_step_s() const;
  [[nodiscard]] bool take_parts();
  void happen(const Happening& event);
  [[nodiscard]] bool still_passes();
  [[nodiscard]] int parts_of_step() const;

  // course_events.cpp
  [[nodiscard]] static double when(const std::function<double(double)>& room, double from,
                                   double to, std::string_view what);
  [[nodiscard]] Reached along(double t);
  [[nodiscard]] std::optional<Happening> first_event(const Reached& at_end, double begin_s,
                                                     double end_s);
  [[nodiscard]] Reached land_on(const Happening& event, double begin_s, double end_s);

  const Charge& charge_;
  const RunSetting& setting_;
  const Stop& stop_;
  std::vector<Limit> limits_;
  std::vector<PowerStep> by_volume_, by_time_;
  Equations equations_;
  bool holds_up_;

  Phase phase_ = Phase::below;
  double t_ = 0.0;
  State state_;
  State floor_;
  Equations::Steps steps_;

  std::size_t next_volume_ = 0, next_time_ = 0;
  bool boiled_ = false;
  bool to_the_boil_;
  bool spout_runs_ = false;
  bool stretch_begins_ = true;
  bool ended_ = false;
  double boiling_s_ = 0.0, drawn_to_boil_J_ = 0.0, net_to_boil_J_ = 0.0;
  Reached here_;
  Run run_;
};

}  // namespace lynearm::still
