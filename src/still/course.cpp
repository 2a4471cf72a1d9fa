#include "still/course.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "vapour/enthalpy.hpp"

namespace lynearm::still {
namespace {

// Between two points the pot's moles fall by at most this share, and its ethanol by that one.
constexpr double longest_part = 0.01;
constexpr double longest_part_of_ethanol = 0.05;
// With a hold-up, of any trace's amount in the charge.
constexpr double longest_part_of_trace = 0.02;
// A step's cubic between its ends is trusted over so great a fall of the pot's ethanol.
constexpr double longest_step_of_ethanol = 0.2;
// With less ethanol than this share of the charge the pot is water: steps and points need not
// follow it further down.
constexpr double water_share = 1e-9;
constexpr int quiet_parts = 4;
// A run that is asked loosely, one of a thousand, is also told in fewer points.
constexpr double loose = 1e-7;
constexpr double fewer_points = 2.5;

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
      curve_(curve),
      stop_(stop),
      volatility_(charge.congeners ? volatility : nullptr),
      limits_(limits(charge, stop)),
      by_volume_(steps_by<units::Volume>(setting.power_steps)),
      by_time_(steps_by<units::Duration>(setting.power_steps)),
      boiling_(curve, setting.head, setting.heating.ambient,
               setting.wall.joules_per_kelvin() +
                   charge.extract.kilograms() * extract_kJ_per_kg_K * 1e3),
      fixed_J_per_K_(setting.wall.joules_per_kelvin() +
                     charge.extract.kilograms() * extract_kJ_per_kg_K * 1e3),
      n0_mol_(moles(charge.spirit).total().moles()),
      power_W_(setting.to_the_boil.value_or(setting.heating.power).watts()),
      steps_(setting.tolerance, State{}),
      to_the_boil_(setting.to_the_boil.has_value()),
      here_{{},
            Tank(setting.hold_up.condenser.litres()),
            Tank(setting.hold_up.parrot.litres()),
            {},
            {}},
      run_{charge, setting, {}, {}, {}, {}, {}, {}, {}, Ending::pot_dry, 0} {
  const Moles in_pot = moles(charge.spirit);
  state_[ethanol] = in_pot.ethanol.moles();
  state_[water] = in_pot.water.moles();
  state_[pot_K] = charge.temperature.kelvins();
  state_[head_K] = setting.heating.ambient.kelvins();
  // Sizes below which an error no longer counts as relative: next to nothing of the charge, a
  // hundredth of the heat that boils it away, a kelvin.
  floor_.fill(1.0);
  floor_[ethanol] = floor_[water] = water_share * n0_mol_;
  floor_[drawn_J] = floor_[net_J] = floor_[head_J] = floor_[vapour_J] = 400.0 * n0_mol_;
  steps_ = numeric::AdaptiveSteps<size>(setting.tolerance, floor_);
  if (charge.congeners) here_.pot_g = charge.congeners->grams;
  here_.state.pot_ethanol_mol = state_[ethanol];
  here_.state.pot_water_mol = state_[water];
  run_.points.reserve(320);
}

double Course::mean_net_W(double pot_temperature_K) const {
  const Heating& heating = setting_.heating;
  return power_W_ * heating.efficiency.fraction() -
         heating.loss.watts_per_kelvin() * (pot_temperature_K - heating.ambient.kelvins());
}

double Course::boil_K(const State& state) const {
  return curve_
      .temperature(
          units::MoleFraction::fraction(state[ethanol] / (state[ethanol] + state[water])))
      .kelvins();
}

void Course::rate(const State& state, State& slope, double /*t*/) const {
  slope.fill(0.0);
  slope[drawn_J] = power_W_;
  const double ambient_K = setting_.heating.ambient.kelvins();
  const double head_wall = setting_.head.wall.joules_per_kelvin();
  if (phase_ == Phase::below) {
    const double n = state[ethanol] + state[water];
    const auto x = units::MoleFraction::fraction(state[ethanol] / n);
    const double K = std::clamp(state[pot_K], 273.15, 383.15);
    const double J_per_K = n * vapour::liquid_heat_capacity(x, units::Temperature::kelvins(K))
                                   .joules_per_mole_kelvin() +
                           fixed_J_per_K_;
    slope[net_J] = mean_net_W(state[pot_K]);
    slope[pot_K] = slope[net_J] / J_per_K;
    // A head that was hot cools while nothing rises.
    if (head_wall > 0.0) {
      slope[head_K] =
          -setting_.head.loss.watts_per_kelvin() * (state[head_K] - ambient_K) / head_wall;
    }
    return;
  }
  if (phase_ == Phase::warming) {
    slope[net_J] = mean_net_W(state[pot_K]);
    slope[head_J] = slope[net_J];
    slope[head_K] = (slope[net_J] - boiling_.given_off_W(state[head_K])) / head_wall;
    // A cooled head comes down to the room, where its coolant is taken to be.
    if (state[head_K] <= ambient_K) slope[head_K] = std::fmax(slope[head_K], 0.0);
    return;
  }
  const double e = std::fmax(state[ethanol], 0.0);
  const double n = std::fmax(e + std::fmax(state[water], 0.0), 1e-9 * n0_mol_);
  const double x = std::clamp(e / n, 0.0, 1.0);
  const double K = curve_.temperature(units::MoleFraction::fraction(x)).kelvins();
  slope[net_J] = mean_net_W(K);
  const Boil boil = boiling_.at(n, x, slope[net_J], guess_);
  if (boil.stalled) {
    stalled_ = true;
    if (slope[net_J] > 0.0) slope[head_J] = slope[net_J];
    return;
  }
  slope[ethanol] = -boil.on_mol_s * boil.passage.leaving_y;
  slope[water] = -boil.on_mol_s * (1.0 - boil.passage.leaving_y);
  slope[head_J] = boil.head_W;
  slope[vapour_J] = boil.on_mol_s * boil.passage.top.vapour_enthalpy.joules_per_mole();
  if (volatility_ != nullptr) {
    const std::span<double, vapour::congener_count> leaving(&slope[gone],
                                                            vapour::congener_count);
    boiling_.rectifier().pass_congeners(*volatility_, x, boil.share, boil.passage, leaving);
    for (double& k : leaving) k *= boil.on_mol_s / n;
  }
}

void Course::start_steps(double first_step_s) {
  steps_.start([this](const State& s, State& d, double t) { rate(s, d, t); }, state_, t_,
               first_step_s);
}

void Course::advance(double longest_s) {
  const bool moved =
      steps_.advance([this](const State& s, State& d, double t) { rate(s, d, t); }, longest_s);
  if (!moved || ++run_.steps > 5000) {
    throw base::NotConverged(
        "run of the still",
        fmt::format("no step from {:.6g} min on is short enough: {:.6g} mol "
                    "left, {:.3g} of it ethanol",
                    t_ / 60.0, state_[ethanol] + state_[water], state_[ethanol]));
  }
}

void Course::shorten(double t) {
  steps_.shorten([this](const State& s, State& d, double at) { rate(s, d, at); }, t);
}

template <class Room>
double Course::when(Room&& room, double from, double to, std::string_view what) const {
  const double at_from = room(from);
  if (at_from <= 0.0) return from;
  if (room(to) >= 0.0) return to;
  return numeric::root_between(room, from, to, what, {.width = 1e-13, .most_iterations = 400})
      .value;
}

double Course::next_change_s() const {
  return next_time_ < by_time_.size()
             ? std::get<units::Duration>(by_time_[next_time_].from).seconds()
             : std::numeric_limits<double>::infinity();
}

// The time at which something is due: a timed step, or the end by time of a run that has begun.
double Course::next_due_s() const {
  const double end_s = spout_runs_ && stop_.after ? stop_.after->seconds()
                                                  : std::numeric_limits<double>::infinity();
  return std::min(next_change_s(), end_s);
}

// Takes up the power of the timed steps that are due.
bool Course::pass_change() {
  bool changed = false;
  while (t_ >= next_change_s() * (1.0 - 1e-12)) {
    power_W_ = by_time_[next_time_++].power.watts();
    to_the_boil_ = false;
    changed = true;
  }
  return changed;
}

// While nothing runs: has the run's time come?
bool Course::ends_by_time() {
  if (!spout_runs_ || !stop_.after || t_ < stop_.after->seconds() * (1.0 - 1e-12)) return false;
  run_.ending = Ending::time;
  ended_ = true;
  return true;
}

void Course::quiet(double t, const State& state) {
  run_.quiet.push_back({units::Duration::seconds(t), units::Temperature::kelvins(state[pot_K]),
                        units::Temperature::kelvins(state[head_K]),
                        units::Energy::joules(state[drawn_J])});
}

void Course::refuse_power(double more_W) const {
  const double efficiency = std::max(setting_.heating.efficiency.fraction(), 1e-3);
  throw base::InputError(
      "run.heating.power", fmt::format("{:.0f} W", power_W_),
      fmt::format("enough to keep the pot boiling at {:.1f} °C and drive vapour past the head: "
                  "more than {:.0f} W",
                  boil_K(state_) - 273.15, power_W_ + std::fmax(more_W, 0.0) / efficiency));
}

// What the head takes of the heat before vapour passes it.
double Course::head_takes_W(const State& state) const {
  if (setting_.head.fixed_reflux) return 0.0;
  const double x = state[ethanol] / (state[ethanol] + state[water]);
  return boiling_.given_off_W(boiling_.passing_K(x));
}

void Course::warm_pot() {
  const double boiling_K = boil_K(state_);
  // A head without metal of its own is as cold as the room as soon as nothing rises.
  if (setting_.head.wall.joules_per_kelvin() <= 0.0) {
    state_[head_K] = setting_.heating.ambient.kelvins();
  }
  quiet(t_, state_);
  // A temperature's error counts relative to some 300 K, and all the charge's heat hangs on it.
  steps_ = numeric::AdaptiveSteps<size>(std::fmax(setting_.tolerance * 1e-3, 1e-14), floor_);
  bool started = false;
  while (true) {
    if (state_[pot_K] >= boiling_K) break;
    if (pass_change() || !started) start_steps(60.0);
    started = true;
    const double due_s = next_due_s();
    const double spare_W = mean_net_W(boiling_K) - head_takes_W(state_);
    if (spare_W <= 0.0 && std::isinf(due_s)) refuse_power(-spare_W);
    advance(due_s - t_);
    const numeric::TakenStep<size>& step = steps_.last();
    if (step.at_to[pot_K] >= boiling_K) {
      shorten(when([&](double t) { return boiling_K - step.at(t)[pot_K]; }, step.from, step.to,
                   "the boil"));
    }
    for (int i = 1; i <= quiet_parts; ++i) {
      const double t = std::lerp(step.from, step.to, static_cast<double>(i) / quiet_parts);
      quiet(t, i == quiet_parts ? step.at_to : step.at(t));
    }
    const bool boils = step.at_to[pot_K] >= boiling_K * (1.0 - 1e-12);
    t_ = step.to;
    state_ = step.at_to;
    if (boils) {
      state_[pot_K] = boiling_K;
      break;
    }
    if (ends_by_time()) return;
  }
  if (!boiled_) {
    boiled_ = true;
    boiling_s_ = t_;
    drawn_to_boil_J_ = state_[drawn_J];
    net_to_boil_J_ = state_[net_J];
    run_.boiling = units::Duration::seconds(t_);
    run_.drawn_to_boil = units::Energy::joules(drawn_to_boil_J_);
    if (to_the_boil_) power_W_ = setting_.heating.power.watts();
    to_the_boil_ = false;
  }
  steps_ = numeric::AdaptiveSteps<size>(setting_.tolerance, floor_);
  phase_ = Phase::warming;
}

void Course::warm_head() {
  const double x = state_[ethanol] / (state_[ethanol] + state_[water]);
  const double passing_K = boiling_.passing_K(x);
  const bool has_wall = setting_.head.wall.joules_per_kelvin() > 0.0;
  quiet(t_, state_);
  bool started = false;
  while (true) {
    if ((pass_change() || !started) && has_wall) start_steps(1.0);
    started = true;
    const double net_W = mean_net_W(state_[pot_K]);
    if (net_W <= 0.0) {
      if (std::isinf(next_due_s())) refuse_power(head_takes_W(state_) - net_W);
      phase_ = Phase::below;
      state_[pot_K] -= 1e-9;
      return;
    }
    const double spare_W = net_W - head_takes_W(state_);
    if (spare_W > 0.0 && (!has_wall || state_[head_K] >= passing_K)) break;
    const double due_s = next_due_s();
    if (spare_W <= 0.0 && std::isinf(due_s)) refuse_power(-spare_W);
    if (!has_wall) {
      // Nothing passes until the fire is changed; all that rises falls back.
      const double wait_s = due_s - t_;
      state_[drawn_J] += power_W_ * wait_s;
      state_[net_J] += net_W * wait_s;
      state_[head_J] += net_W * wait_s;
      t_ = due_s;
      quiet(t_, state_);
    } else {
      advance(due_s - t_);
      const numeric::TakenStep<size>& step = steps_.last();
      if (step.at_to[head_K] >= passing_K) {
        shorten(when([&](double t) { return passing_K - step.at(t)[head_K]; }, step.from,
                     step.to, "vapour past the head"));
      }
      const bool passes = step.at_to[head_K] >= passing_K * (1.0 - 1e-12);
      t_ = step.to;
      state_ = step.at_to;
      if (passes) state_[head_K] = passing_K;
      quiet(t_, state_);
    }
    if (ends_by_time()) return;
  }
  state_[head_K] = passing_K;
  phase_ = Phase::running;
}

Course::Reached Course::reach(const State& state, double t) const {
  Reached to = here_;
  RunState& s = to.state;
  const RunState& from = here_.state;
  s.t_s = t;
  s.pot_ethanol_mol = std::fmax(state[ethanol], 0.0);
  s.pot_water_mol = std::fmax(state[water], 0.0);
  const double n = s.pot_mol();
  const double x = std::clamp(s.pot_ethanol_mol / n, 0.0, 1.0);
  const double K = curve_.temperature(units::MoleFraction::fraction(x)).kelvins();
  const Boil boil = boiling_.at(n, x, mean_net_W(K), guess_);
  s.pot_K = K;
  s.rising_y = boil.pot.here.vapour.fraction();
  s.reflux_x = boil.passage.top_x;
  s.leaving_y = boil.passage.leaving_y;
  s.back_share = boil.share;
  s.on_mol_s = boil.on_mol_s;
  s.head_K = boil.passage.top.temperature.kelvins();
  s.drawn_J = state[drawn_J] - drawn_to_boil_J_;
  s.into_pot_J = state[net_J] - net_to_boil_J_;
  s.head_heat_J = state[head_J];
  s.carried_J = state[vapour_J];

  Parcel parcel;
  parcel.ethanol_mol = std::fmax(from.pot_ethanol_mol - s.pot_ethanol_mol, 0.0);
  parcel.water_mol = std::fmax(from.pot_water_mol - s.pot_water_mol, 0.0);
  parcel.z_from = from.leaving_y;
  parcel.z_to = s.leaving_y;
  if (volatility_ != nullptr) {
    boiling_.rectifier().pass_congeners(*volatility_, x, boil.share, boil.passage,
                                        to.leaving_g_per_mol);
    for (std::size_t i = 0; i < to.pot_g.size(); ++i) {
      to.pot_g[i] = charge_.congeners->grams[i] * std::exp(-state[gone + i]);
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
  s.spout_z =
      setting_.hold_up.condenser > units::Volume{} || setting_.hold_up.parrot > units::Volume{}
          ? parcel.z_to
          : s.leaving_y;
  return to;
}

void Course::commit(const Reached& reached) {
  here_ = reached;
  if (!spout_runs_) {
    State state = state_;
    state[pot_K] = reached.state.pot_K;
    state[head_K] = reached.state.head_K;
    state[drawn_J] = reached.state.drawn_J + drawn_to_boil_J_;
    quiet(reached.state.t_s, state);
    return;
  }
  if (stretch_begins_) run_.smooth.push_back(run_.points.size());
  stretch_begins_ = false;
  run_.points.push_back(shown(charge_, boiling_s_, reached.state));
  if (volatility_ != nullptr) {
    run_.congeners_in_pot.push_back({reached.pot_g});
    CongenerAmounts held;
    for (std::size_t i = 0; i < held.grams.size(); ++i) {
      held.grams[i] = reached.coil.congener_g(i) + reached.parrot.congener_g(i);
    }
    run_.congeners_held.push_back(held);
  }
}

// The first moment of a stretch: vapour passes, and the spout runs if coil and parrot are full.
void Course::begin_running() {
  stalled_ = false;
  stretch_begins_ = true;
  Reached start = reach(state_, t_);
  const auto full = [](const Reached& r) {
    return r.coil.missing_L() <= 1e-9 && r.parrot.missing_L() <= 1e-9;
  };
  if (!spout_runs_ && full(start)) {
    spout_runs_ = true;
    for (const Limit& limit : limits_) {
      if (limit.room(start.state) <= 0.0) {
        refuse_start(limit.ending, stop_, start.state, charge_);
      }
    }
  }
  // Nothing has flowed yet: what the parrot shows is what it held, or the first drop.
  if (spout_runs_ && !run_.points.empty() && start.state.held_ethanol_mol > 0.0) {
    start.state.spout_z = here_.state.spout_z;
  }
  commit(start);
}

int Course::parts_of_step() const {
  const numeric::TakenStep<size>& step = steps_.last();
  const auto fall = [](double from, double to) { return to > 0.0 ? std::log(from / to) : 1.0; };
  const double moles = fall(step.at_from[ethanol] + step.at_from[water],
                            step.at_to[ethanol] + step.at_to[water]);
  // What coil and parrot take in of a trace runs straight over a part; the early leave fast.
  double traces = 0.0;
  if (volatility_ != nullptr && (setting_.hold_up.condenser > units::Volume{} ||
                                 setting_.hold_up.parrot > units::Volume{})) {
    for (std::size_t i = gone; i < size; ++i) {
      traces = std::fmax(traces, std::exp(-step.at_from[i]) - std::exp(-step.at_to[i]));
    }
  }
  const double floor = water_share * n0_mol_;
  const double spirit = fall(step.at_from[ethanol] + floor, step.at_to[ethanol] + floor);
  const double finest =
      std::max({std::abs(moles) / longest_part, std::abs(spirit) / longest_part_of_ethanol,
                traces / longest_part_of_trace});
  return std::clamp(
      static_cast<int>(std::ceil(setting_.tolerance > loose ? finest / fewer_points : finest)),
      2, 64);
}

void Course::distil() {
  begin_running();
  const double first_flow = -(here_.state.on_mol_s);
  start_steps(1e-3 * n0_mol_ / std::fmax(std::abs(first_flow), 1e-12));
  while (!ended_) {
    const State& slope = steps_.last().slope_to;
    const double longest_s =
        std::min(next_change_s() - t_, longest_step_of_ethanol *
                                           (state_[ethanol] + water_share * n0_mol_) /
                                           std::fmax(-slope[ethanol], 1e-300));
    advance(longest_s);
    const numeric::TakenStep<size>& step = steps_.last();
    const int parts = parts_of_step();
    const double from = step.from;
    const double to = step.to;
    bool changed = false;
    for (int i = 1; i <= parts && !ended_ && !changed; ++i) {
      const double begin = here_.state.t_s;
      const double end = i == parts ? to : std::lerp(from, to, static_cast<double>(i) / parts);
      const auto at = [&](double t) {
        return reach(t == step.to ? step.at_to : step.at(t), t);
      };
      Reached reached = at(end);
      // All that happens in this part; the first of it cuts the part short.
      enum class Event { none, spout, ending, power } event = Event::none;
      double until = end;
      std::function<double(const Reached&)> of_event;
      const auto consider = [&](Event kind, std::string_view what, const auto& room) {
        if (room(reached) > 0.0) return false;
        const double t = when([&](double s) { return room(at(s)); }, begin, end, what);
        if (event != Event::none && t >= until) return false;
        event = kind;
        until = t;
        of_event = room;
        return true;
      };
      if (!spout_runs_) {
        (void)consider(Event::spout, "the first drop", [](const Reached& r) {
          return std::fmax(r.coil.missing_L(), r.parrot.missing_L()) - 1e-9;
        });
        const Limit& dry = limits_.back();
        if (event == Event::none && dry.room(reached.state) <= 0.0) {
          refuse_start(dry.ending, stop_, reached.state, charge_);
        }
      } else {
        for (const Limit& limit : limits_) {
          if (consider(Event::ending, "end of the run",
                       [&room = limit.room](const Reached& r) { return room(r.state); })) {
            run_.ending = limit.ending;
          }
        }
        if (next_volume_ < by_volume_.size()) {
          const double wanted_L =
              std::get<units::Volume>(by_volume_[next_volume_].from).litres();
          (void)consider(Event::power, "a change of power", [this, wanted_L](const Reached& r) {
            return wanted_L - litres_20C(distilled(charge_, r.state));
          });
        }
      }
      if (event != Event::none) {
        // The cubic said when; a step of that length is more exact, and is put right by the
        // slope of the cubic.
        const double aside = 1e-3 * (end - begin);
        const double room_slope =
            (of_event(at(until + aside)) - of_event(at(until - aside))) / (2.0 * aside);
        for (int turn = 0; turn < 3; ++turn) {
          shorten(until);
          reached = reach(step.at_to, until);
          const double moved = -of_event(reached) / room_slope;
          if (!(std::abs(moved) < aside) || std::abs(moved) < 1e-15 * until) break;
          if (turn < 2) until = std::clamp(until + moved, begin, end);
        }
      }
      if (event == Event::spout) {
        spout_runs_ = true;
        for (const Limit& limit : limits_) {
          if (limit.room(reached.state) <= 0.0) {
            refuse_start(limit.ending, stop_, reached.state, charge_);
          }
        }
      }
      commit(reached);
      ended_ = event == Event::ending;
      if (event == Event::power) power_W_ = by_volume_[next_volume_++].power.watts();
      changed = event != Event::none;
    }
    t_ = step.to;
    state_ = step.at_to;
    state_[pot_K] = here_.state.pot_K;
    state_[head_K] = here_.state.head_K;
    if (ended_) return;
    if (stalled_ && std::isinf(next_change_s())) {
      const double net_W = mean_net_W(state_[pot_K]);
      refuse_power(std::fmax(boiling_.given_off_W(state_[head_K]) - net_W, 0.0));
    }
    const bool new_power = pass_change();
    if (!new_power && !changed && !stalled_) continue;
    // After a change nothing is smooth: is there still vapour over the head?
    if (mean_net_W(state_[pot_K]) <= 0.0) {
      phase_ = Phase::below;
      state_[pot_K] -= 1e-9;
      return;
    }
    BoilingPot::Guess guess = guess_;
    const double n = state_[ethanol] + state_[water];
    if (stalled_ ||
        boiling_.at(n, state_[ethanol] / n, mean_net_W(state_[pot_K]), guess).stalled) {
      phase_ = Phase::warming;
      return;
    }
    begin_running();
    start_steps(std::min(60.0, to - from));
  }
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
  base::ensure(run_.points.size() >= 2, "a run has a first drop and an end");
  return std::move(run_);
}

}  // namespace lynearm::still
