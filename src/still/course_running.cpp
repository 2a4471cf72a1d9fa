// The phase in which spirit runs, or fills coil and parrot: step by step, each step in parts
// fine enough for a cubic between them, each part cut short by what happens in it.
#include <algorithm>
#include <cmath>

#include "still/course.hpp"

namespace lynearm::still {
namespace {

// Between two points the pot's moles fall by at most this share, and its ethanol by that one.
constexpr double longest_part = 0.01;
constexpr double longest_part_of_ethanol = 0.05;
// With a hold-up, of any trace's amount in the charge.
constexpr double longest_part_of_trace = 0.02;
// A step's cubic between its ends is trusted over so great a fall of the pot's ethanol.
constexpr double longest_step_of_ethanol = 0.2;
// A run that is asked loosely, one of a thousand, is also told in fewer points.
constexpr double loose = 1e-7;
constexpr double fewer_points = 2.5;
constexpr int most_parts = 64;
// Of the charge's moles, what a first step is expected to send over.
constexpr double first_step = 1e-3;
constexpr double first_step_after_change_s = 60.0;

}  // namespace

void Course::distil() {
  begin_running();
  start_steps(first_step * equations_.charged_mol() /
              std::fmax(std::abs(here_.state.on_mol_s), 1e-12));
  while (!ended_) {
    advance(std::min(next_change_s() - t_, longest_step_s()));
    const double length_s = steps_.last().to - steps_.last().from;
    const bool happened = take_parts();
    if (ended_) return;
    if (equations_.stalled() && std::isinf(next_change_s())) {
      const double net_W = equations_.net_W(state_[Equations::pot_K]);
      const double head_W = equations_.boiling().given_off_W(state_[Equations::head_K]);
      refuse_power(std::fmax(head_W - net_W, 0.0));
    }
    const bool new_power = pass_change();
    if (!new_power && !happened && !equations_.stalled()) continue;
    // After a change nothing is smooth: is there still vapour over the head?
    if (!still_passes()) return;
    begin_running();
    start_steps(std::min(first_step_after_change_s, length_s));
  }
}

// The first moment of a stretch: vapour passes, and the spout runs if coil and parrot are full.
void Course::begin_running() {
  equations_.forget_stall();
  stretch_begins_ = true;
  Reached start = reach(state_, t_);
  const bool full = start.coil.missing_L() <= 1e-9 && start.parrot.missing_L() <= 1e-9;
  if (!spout_runs_ && full) let_run(start.state);
  // Nothing has flowed yet: what the parrot shows is what it held, or the first drop.
  if (spout_runs_ && !run_.points.empty() && start.state.held_ethanol_mol > 0.0) {
    start.state.spout_z = here_.state.spout_z;
  }
  commit(start);
}

double Course::longest_step_s() const {
  const double ethanol_mol =
      state_[Equations::ethanol] + Equations::water_share * equations_.charged_mol();
  const double leaving_mol_s = -steps_.last().slope_to[Equations::ethanol];
  return longest_step_of_ethanol * ethanol_mol / std::fmax(leaving_mol_s, 1e-300);
}

// Keeps the step last taken, part by part. True when something happened that cut it short.
bool Course::take_parts() {
  const Equations::Step& step = steps_.last();
  const int parts = parts_of_step();
  const double from = step.from;
  const double to = step.to;
  bool happened = false;
  for (int i = 1; i <= parts && !happened; ++i) {
    const double begin_s = here_.state.t_s;
    const double end_s = i == parts ? to : std::lerp(from, to, static_cast<double>(i) / parts);
    Reached reached = along(end_s);
    const std::optional<Happening> event = first_event(reached, begin_s, end_s);
    if (event) {
      reached = land_on(*event, begin_s, end_s);
      if (event->kind == Happening::Kind::spout) let_run(reached.state);
    }
    commit(reached);
    if (event) happen(*event);
    happened = event.has_value();
  }
  t_ = step.to;
  state_ = step.at_to;
  state_[Equations::pot_K] = here_.state.pot_K;
  state_[Equations::head_K] = here_.state.head_K;
  return happened;
}

// After the moment of an event was kept.
void Course::happen(const Happening& event) {
  if (event.kind == Happening::Kind::ending) {
    run_.ending = event.ending;
    ended_ = true;
  } else if (event.kind == Happening::Kind::power) {
    equations_.draw(by_volume_[next_volume_++].power);
  }
}

// Whether vapour passes the head over the fire there is now; if not, the phase it falls back
// to.
bool Course::still_passes() {
  if (equations_.net_W(state_[Equations::pot_K]) <= 0.0) {
    fall_under_boil();
    return false;
  }
  if (equations_.stalled() || equations_.would_stall(state_)) {
    phase_ = Phase::warming;
    return false;
  }
  return true;
}

int Course::parts_of_step() const {
  const Equations::Step& step = steps_.last();
  const State& a = step.at_from;
  const State& b = step.at_to;
  const auto fall = [](double from, double to) { return to > 0.0 ? std::log(from / to) : 1.0; };
  const double moles = fall(a[Equations::ethanol] + a[Equations::water],
                            b[Equations::ethanol] + b[Equations::water]);
  // What coil and parrot take in of a trace runs straight over a part; the early leave fast.
  double traces = 0.0;
  if (equations_.volatility() != nullptr && holds_up_) {
    for (std::size_t i = Equations::gone; i < Equations::size; ++i) {
      traces = std::fmax(traces, std::exp(-a[i]) - std::exp(-b[i]));
    }
  }
  const double floor = Equations::water_share * equations_.charged_mol();
  const double spirit = fall(a[Equations::ethanol] + floor, b[Equations::ethanol] + floor);
  const double finest =
      std::max({std::abs(moles) / longest_part, std::abs(spirit) / longest_part_of_ethanol,
                traces / longest_part_of_trace});
  const double parts = setting_.tolerance > loose ? finest / fewer_points : finest;
  return std::clamp(static_cast<int>(std::ceil(parts)), 2, most_parts);
}

}  // namespace lynearm::still
