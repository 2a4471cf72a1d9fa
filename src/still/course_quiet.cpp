// The phases in which nothing runs: the pot under its boil, and a boiling pot under a head that
// is still cold. Each goes on until its temperature is reached, the fire goes down too far, or
// the run's time is up.
#include <algorithm>
#include <cmath>

#include "still/course.hpp"

namespace lynearm::still {
namespace {

// Moments kept of each step while the pot warms.
constexpr int quiet_parts = 4;

}  // namespace

void Course::warm_pot() {
  const double boiling_K = equations_.boil_K(state_);
  // A head without metal of its own is as cold as the room as soon as nothing rises.
  if (setting_.head.wall.joules_per_kelvin() <= 0.0) {
    state_[Equations::head_K] = setting_.heating.ambient.kelvins();
  }
  quiet(t_, state_);
  // A temperature's error counts relative to some 300 K, and all the charge's heat hangs on it.
  steps_ = Equations::Steps(std::fmax(setting_.tolerance * 1e-3, 1e-14), floor_);
  bool started = false;
  while (state_[Equations::pot_K] < boiling_K) {
    if (pass_change() || !started) start_steps(60.0);
    started = true;
    const double due_s = next_due_s();
    const double spare_W = equations_.net_W(boiling_K) - equations_.head_takes_W(state_);
    if (spare_W <= 0.0 && std::isinf(due_s)) refuse_power(-spare_W);
    if (warm_pot_by_a_step(boiling_K, due_s - t_)) break;
    if (ends_by_time()) return;
  }
  come_to_boil();
  steps_ = Equations::Steps(setting_.tolerance, floor_);
  phase_ = Phase::warming;
}

// True when the step ends at the boil.
bool Course::warm_pot_by_a_step(double boiling_K, double longest_s) {
  advance(longest_s);
  const Equations::Step& step = steps_.last();
  if (step.at_to[Equations::pot_K] >= boiling_K) {
    shorten(when([&](double t) { return boiling_K - step.at(t)[Equations::pot_K]; }, step.from,
                 step.to, "the boil"));
  }
  for (int i = 1; i <= quiet_parts; ++i) {
    const double t = std::lerp(step.from, step.to, static_cast<double>(i) / quiet_parts);
    quiet(t, i == quiet_parts ? step.at_to : step.at(t));
  }
  const bool boils = step.at_to[Equations::pot_K] >= boiling_K * (1.0 - rounding);
  t_ = step.to;
  state_ = step.at_to;
  if (boils) state_[Equations::pot_K] = boiling_K;
  return boils;
}

void Course::warm_head() {
  const double x =
      state_[Equations::ethanol] / (state_[Equations::ethanol] + state_[Equations::water]);
  const double passing_K = equations_.boiling().passing_K(x);
  const bool has_wall = setting_.head.wall > units::HeatCapacity{};
  quiet(t_, state_);
  bool started = false;
  while (true) {
    if ((pass_change() || !started) && has_wall) start_steps(1.0);
    started = true;
    const double net_W = equations_.net_W(state_[Equations::pot_K]);
    const double due_s = next_due_s();
    const double spare_W = net_W - equations_.head_takes_W(state_);
    if (net_W <= 0.0) {
      if (std::isinf(due_s)) refuse_power(-spare_W);
      fall_under_boil();
      return;
    }
    if (spare_W > 0.0 && (!has_wall || state_[Equations::head_K] >= passing_K)) break;
    if (spare_W <= 0.0 && std::isinf(due_s)) refuse_power(-spare_W);
    if (has_wall) {
      warm_head_by_a_step(passing_K, due_s - t_);
    } else {
      stand(due_s);
    }
    if (ends_by_time()) return;
  }
  state_[Equations::head_K] = passing_K;
  phase_ = Phase::running;
}

void Course::warm_head_by_a_step(double passing_K, double longest_s) {
  advance(longest_s);
  const Equations::Step& step = steps_.last();
  if (step.at_to[Equations::head_K] >= passing_K) {
    shorten(when([&](double t) { return passing_K - step.at(t)[Equations::head_K]; }, step.from,
                 step.to, "vapour past the head"));
  }
  const bool passes = step.at_to[Equations::head_K] >= passing_K * (1.0 - rounding);
  t_ = step.to;
  state_ = step.at_to;
  if (passes) state_[Equations::head_K] = passing_K;
  quiet(t_, state_);
}

// Nothing passes until the fire is changed; all that rises falls back.
void Course::stand(double until_s) {
  const double wait_s = until_s - t_;
  const double net_W = equations_.net_W(state_[Equations::pot_K]);
  state_[Equations::drawn_J] += equations_.drawn().watts() * wait_s;
  state_[Equations::net_J] += net_W * wait_s;
  state_[Equations::head_J] += net_W * wait_s;
  t_ = until_s;
  quiet(t_, state_);
}

// The fire no longer holds the pot at its boil.
void Course::fall_under_boil() {
  phase_ = Phase::below;
  // A hair under it, so that it has to come to the boil again.
  state_[Equations::pot_K] -= 1e-9;
}

}  // namespace lynearm::still
