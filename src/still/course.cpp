#include "still/course.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/error.hpp"

namespace lynearm::still {
namespace {

constexpr double never_s = std::numeric_limits<double>::infinity();
constexpr int most_steps = 5000;

template <class Kind>
std::vector<PowerStep> steps_by(const std::vector<PowerStep>& steps) {
  std::vector<PowerStep> chosen;
  for (const PowerStep& step : steps) {
    if (std::holds_alternative<Kind>(step.from)) chosen.push_back(step);
  }
  return chosen;
}

}  // namespace

Course::Course(const Charge& charge, const RunSetting& setting,
               const vapour::BoilingCurve& curve, const Stop& stop,
               const vapour::CongenerCurve* volatility)
    : charge_(charge),
      setting_(setting),
      stop_(stop),
      limits_(limits(charge, stop)),
      by_volume_(steps_by<units::Volume>(setting.power_steps)),
      by_time_(steps_by<units::Duration>(setting.power_steps)),
      equations_(charge, setting, curve, volatility),
      holds_up_(setting.hold_up.condenser > units::Volume{} ||
                setting.hold_up.parrot > units::Volume{}),
      state_(equations_.start()),
      floor_(equations_.floor()),
      steps_(setting.tolerance, floor_),
      to_the_boil_(setting.to_the_boil.has_value()),
      here_{
          {}, Tank(setting.hold_up.condenser.litres()), Tank(setting.hold_up.parrot.litres())},
      run_{charge, setting, {}, {}, {}, {}, {}, {}, {}, Ending::pot_dry, 0} {
  if (charge.congeners) here_.pot_g = charge.congeners->grams;
  here_.state.pot_ethanol_mol = state_[Equations::ethanol];
  here_.state.pot_water_mol = state_[Equations::water];
  run_.points.reserve(320);
}

Run Course::go() {
  while (!ended_) {
    switch (phase_) {
      case Phase::below:
        warm_pot();
        break;
      case Phase::warming:
        warm_head();
        break;
      case Phase::running:
        distil();
        break;
    }
  }
  base::ensure(!run_.points.empty(), "a run that ended had begun");
  // The first drop fell, the fire no longer drove the still, and its time came.
  if (run_.points.size() == 1) refuse_start(run_.ending, stop_, here_.state, charge_);
  return std::move(run_);
}

// The first boil, from which a run's heats count and at which the fire is turned down.
void Course::come_to_boil() {
  if (boiled_) return;
  boiled_ = true;
  boiling_s_ = t_;
  drawn_to_boil_J_ = state_[Equations::drawn_J];
  net_to_boil_J_ = state_[Equations::net_J];
  run_.boiling = units::Duration::seconds(t_);
  run_.drawn_to_boil = units::Energy::joules(drawn_to_boil_J_);
  if (to_the_boil_) equations_.draw(setting_.heating.power);
  to_the_boil_ = false;
}

double Course::next_change_s() const {
  return next_time_ < by_time_.size()
             ? std::get<units::Duration>(by_time_[next_time_].from).seconds()
             : never_s;
}

// The time at which something is due: a timed step, or the end by time of a run that has begun.
double Course::next_due_s() const {
  const double end_s = spout_runs_ && stop_.after ? stop_.after->seconds() : never_s;
  return std::min(next_change_s(), end_s);
}

// Takes up the power of the timed steps that are due.
bool Course::pass_change() {
  bool changed = false;
  while (t_ >= next_change_s() * (1.0 - rounding)) {
    equations_.draw(by_time_[next_time_++].power);
    to_the_boil_ = false;
    changed = true;
  }
  return changed;
}

// While nothing runs: has the run's time come?
bool Course::ends_by_time() {
  if (!spout_runs_ || !stop_.after || t_ < stop_.after->seconds() * (1.0 - rounding)) {
    return false;
  }
  run_.ending = Ending::time;
  ended_ = true;
  return true;
}

void Course::start_steps(double first_step_s) {
  steps_.start(
      [this](const State& s, State& d, double /*t*/) { equations_.rate(phase_, s, d); }, state_,
      t_, first_step_s);
}

void Course::advance(double longest_s) {
  const bool moved = steps_.advance(
      [this](const State& s, State& d, double /*t*/) { equations_.rate(phase_, s, d); },
      longest_s);
  if (!moved || ++run_.steps > most_steps) {
    const double e = state_[Equations::ethanol];
    throw base::NotConverged("run of the still",
                             fmt::format("no step from {:.6g} min on is short enough: {:.6g} "
                                         "mol left, {:.3g} of it ethanol",
                                         t_ / 60.0, e + state_[Equations::water], e));
  }
}

void Course::shorten(double t) {
  steps_.shorten(
      [this](const State& s, State& d, double /*t*/) { equations_.rate(phase_, s, d); }, t);
}

void Course::quiet(double t, const State& state) {
  run_.quiet.push_back({units::Duration::seconds(t),
                        units::Temperature::kelvins(state[Equations::pot_K]),
                        units::Temperature::kelvins(state[Equations::head_K]),
                        units::Energy::joules(state[Equations::drawn_J])});
}

// What a state of the pot makes of the run's latest moment, through coil and parrot.
Course::Reached Course::reach(const State& state, double t) {
  Reached to = here_;
  RunState& s = to.state;
  const RunState& from = here_.state;
  s.t_s = t;
  s.pot_ethanol_mol = std::fmax(state[Equations::ethanol], 0.0);
  s.pot_water_mol = std::fmax(state[Equations::water], 0.0);
  // A step tried loosely may reach past a dry pot; where it ran dry is found between.
  const double n = std::fmax(s.pot_mol(), 1e-12 * equations_.charged_mol());
  const double x = std::clamp(s.pot_ethanol_mol / n, 0.0, 1.0);
  const double K = equations_.curve().temperature(units::MoleFraction::fraction(x)).kelvins();
  const Boil boil = equations_.boil(n, x, equations_.net_W(K));
  s.pot_K = K;
  s.rising_y = boil.pot.here.vapour.fraction();
  s.reflux_x = boil.passage.top_x;
  s.leaving_y = boil.passage.leaving_y;
  s.back_share = boil.share;
  s.on_mol_s = boil.on_mol_s;
  s.head_K = boil.passage.top.temperature.kelvins();
  s.drawn_J = state[Equations::drawn_J] - drawn_to_boil_J_;
  s.into_pot_J = state[Equations::net_J] - net_to_boil_J_;
  s.head_heat_J = state[Equations::head_J];
  s.carried_J = state[Equations::vapour_J];

  Parcel parcel;
  parcel.ethanol_mol = std::fmax(from.pot_ethanol_mol - s.pot_ethanol_mol, 0.0);
  parcel.water_mol = std::fmax(from.pot_water_mol - s.pot_water_mol, 0.0);
  parcel.z_from = from.leaving_y;
  parcel.z_to = s.leaving_y;
  if (const auto* volatility = equations_.volatility()) {
    equations_.boiling().rectifier().pass_congeners(*volatility, x, boil.share, boil.passage,
                                                    to.leaving_g_per_mol);
    for (std::size_t i = 0; i < to.pot_g.size(); ++i) {
      to.pot_g[i] = charge_.congeners->grams[i] * std::exp(-state[Equations::gone + i]);
      to.leaving_g_per_mol[i] *= to.pot_g[i] / n;
      parcel.congener_g[i] = here_.pot_g[i] - to.pot_g[i];
      parcel.trace_from[i] = here_.leaving_g_per_mol[i];
      parcel.trace_to[i] = to.leaving_g_per_mol[i];
    }
  }
  to.coil.pass(parcel);
  to.parrot.pass(parcel);
  s.held_ethanol_mol = to.coil.ethanol_mol() + to.parrot.ethanol_mol();
  s.held_water_mol = to.coil.water_mol() + to.parrot.water_mol();
  s.spout_z = holds_up_ ? parcel.z_to : s.leaving_y;
  return to;
}

// Makes what was reached the run's latest moment.
void Course::commit(const Reached& reached) {
  here_ = reached;
  if (!spout_runs_) {
    State state = state_;
    state[Equations::pot_K] = reached.state.pot_K;
    state[Equations::head_K] = reached.state.head_K;
    state[Equations::drawn_J] = reached.state.drawn_J + drawn_to_boil_J_;
    quiet(reached.state.t_s, state);
    return;
  }
  if (stretch_begins_) run_.smooth.push_back(run_.points.size());
  stretch_begins_ = false;
  run_.points.push_back(shown(charge_, boiling_s_, reached.state));
  if (equations_.volatility() != nullptr) {
    run_.congeners_in_pot.push_back({reached.pot_g});
    CongenerAmounts held;
    for (std::size_t i = 0; i < held.grams.size(); ++i) {
      held.grams[i] = reached.coil.congener_g(i) + reached.parrot.congener_g(i);
    }
    run_.congeners_held.push_back(held);
  }
}

// The spout runs from now on: no stop may be past already.
void Course::let_run(const RunState& first) {
  spout_runs_ = true;
  for (const Limit& limit : limits_) {
    if (limit.room(first) <= 0.0) refuse_start(limit.ending, stop_, first, charge_);
  }
}

void Course::refuse_power(double more_W) const {
  const double efficiency = std::max(setting_.heating.efficiency.fraction(), 1e-3);
  const double drawn_W = equations_.drawn().watts();
  throw base::InputError(
      "run.heating.power", fmt::format("{:.0f} W", drawn_W),
      fmt::format("enough to keep the pot boiling at {:.1f} °C and drive vapour past the head: "
                  "more than {:.0f} W",
                  equations_.boil_K(state_) - 273.15,
                  drawn_W + std::fmax(more_W, 0.0) / efficiency));
}

}  // namespace lynearm::still
