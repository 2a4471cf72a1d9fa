// What happens within a part of a step, spirit running: the first drop from the parrot, an end
// of the run, a change of power by volume. The first of them cuts the part short.
#include <algorithm>
#include <cmath>

#include "numeric/root.hpp"
#include "still/course.hpp"

namespace lynearm::still {

// The moment between two at which `room`, above zero before, is used up.
double Course::when(const std::function<double(double)>& room, double from, double to,
                    std::string_view what) {
  const double at_from = room(from);
  if (at_from <= 0.0) return from;
  if (room(to) >= 0.0) return to;
  return numeric::root_between(room, from, to, what, {.width = 1e-13, .most_iterations = 400})
      .value;
}

// What a moment of the step last taken makes of the run's latest one.
Course::Reached Course::along(double t) {
  const Equations::Step& step = steps_.last();
  return reach(t == step.to ? step.at_to : step.at(t), t);
}

// The first event of the part from the run's latest moment to `end_s`, if there is one.
std::optional<Course::Happening> Course::first_event(const Reached& at_end, double begin_s,
                                                     double end_s) {
  std::optional<Happening> first;
  const auto consider = [&](Happening event, std::string_view what) {
    if (event.room(at_end) > 0.0) return;
    event.at_s = when([&](double t) { return event.room(along(t)); }, begin_s, end_s, what);
    if (!first || event.at_s < first->at_s) first = std::move(event);
  };
  if (!spout_runs_) {
    consider({Happening::Kind::spout, end_s,
              [](const Reached& r) {
                return std::fmax(r.coil.missing_L(), r.parrot.missing_L()) - 1e-9;
              }},
             "the first drop");
    const Limit& dry = limits_.back();
    if (!first && dry.room(at_end.state) <= 0.0) {
      refuse_start(dry.ending, stop_, at_end.state, charge_);
    }
    return first;
  }
  for (const Limit& limit : limits_) {
    consider({Happening::Kind::ending, end_s,
              [&room = limit.room](const Reached& r) { return room(r.state); }, limit.ending},
             "end of the run");
  }
  if (next_volume_ < by_volume_.size()) {
    const double wanted_L = std::get<units::Volume>(by_volume_[next_volume_].from).litres();
    consider({Happening::Kind::power, end_s,
              [this, wanted_L](const Reached& r) {
                return wanted_L - litres_20C(distilled(charge_, r.state));
              }},
             "a change of power");
  }
  return first;
}

// Ends the step at an event. The cubic said when; a step of that length is more exact, and is
// put right by the slope of the cubic.
Course::Reached Course::land_on(const Happening& event, double begin_s, double end_s) {
  double at_s = event.at_s;
  const double aside = 1e-3 * (end_s - begin_s);
  const double room_slope =
      (event.room(along(at_s + aside)) - event.room(along(at_s - aside))) / (2.0 * aside);
  Reached reached = here_;
  constexpr int turns = 3;
  for (int turn = 1; turn <= turns; ++turn) {
    shorten(at_s);
    reached = along(at_s);
    const double moved = -event.room(reached) / room_slope;
    if (!(std::abs(moved) < aside) || std::abs(moved) < 1e-15 * at_s) break;
    if (turn < turns) at_s = std::clamp(at_s + moved, begin_s, end_s);
  }
  return reached;
}

}  // namespace lynearm::still
