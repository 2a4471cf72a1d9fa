// Ordinary differential equations with dense output and events: Dormand-Prince 5(4) with
// adaptive steps, from Boost.Odeint. Every state between steps can be asked for, so an event
// (the spout falls to its stop strength) is found to the tolerance, not to the step.
#pragma once

#include <functional>
#include <string_view>
#include <vector>

namespace lynearm::numeric {

using State = std::vector<double>;

/// How finely to integrate.
struct StepControl {
  double relative = 1e-9;
  double absolute = 1e-12;
  double first_step = 1e-3;
  int most_steps = 100000;
};

/// What an integration returns: the states at the steps taken, and where it ended.
struct Path {
  std::vector<double> at;    ///< the independent variable at each kept point, ascending
  std::vector<State> state;  ///< the state there; same length as `at`
  bool stopped = false;      ///< true when the stop event ended it, false at `end`
  int steps = 0;
};

/// Integrates d(state)/ds = rate(s, state) from `start` to `end`, or until `stop` changes sign.
///
/// rate       writes the derivative into its last argument (sized like the state)
/// stop       positive while the run goes on; the path ends where it becomes zero. May be
///            empty. A stop already non-positive at the start ends the path there.
/// spacing    a point is kept at least every `spacing` of the independent variable (dense
///            output), besides the start and the end
/// throws     NotConverged when the steps run out or a state is not finite
[[nodiscard]] Path integrate(const std::function<void(double, const State&, State&)>& rate,
                             const State& initial, double start, double end, double spacing,
                             std::string_view procedure,
                             const std::function<double(double, const State&)>& stop = {},
                             StepControl control = {});

}  // namespace lynearm::numeric
