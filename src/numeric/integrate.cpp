#include "numeric/integrate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <boost/numeric/odeint/util/odeint_error.hpp>
#include <cmath>
#include <tuple>
#include <utility>

#include "base/error.hpp"
#include "numeric/root.hpp"

namespace lynearm::numeric {
namespace {

void check_finite(const State& state, double at, std::string_view procedure) {
  for (const double value : state) {
    if (!std::isfinite(value)) {
      throw base::NotConverged(procedure, fmt::format("state not finite at {:.9g}", at));
    }
  }
}

}  // namespace

Path integrate(const std::function<void(double, const State&, State&)>& rate,
               const State& initial, double start, double end, double spacing,
               std::string_view procedure,
               const std::function<double(double, const State&)>& stop, StepControl control) {
  namespace odeint = boost::numeric::odeint;
  base::ensure(spacing > 0.0 && end >= start, "an integration runs forward with a spacing");

  Path path;
  const auto keep = [&](double at, const State& state) {
    path.at.push_back(at);
    path.state.push_back(state);
  };
  keep(start, initial);
  if (end == start) return path;
  if (stop && stop(start, initial) <= 0.0) {
    path.stopped = true;
    return path;
  }

  auto stepper = odeint::make_dense_output(control.absolute, control.relative,
                                           odeint::runge_kutta_dopri5<State>());
  const auto system = [&rate](const State& state, State& derivative, double s) {
    rate(s, state, derivative);
  };
  stepper.initialize(initial, start, std::min(control.first_step, end - start));

  State between(initial.size());
  // Counted, not summed: a sum of spacings ends a rounding short of `end` and keeps it twice.
  int kept = 1;
  const auto next_kept = [&] { return start + spacing * kept; };
  const double coincide = 1e-9 * spacing;
  while (true) {
    if (++path.steps > control.most_steps) {
      throw base::NotConverged(
          procedure, fmt::format("{} steps reached {:.9g} of {:.9g}", control.most_steps,
                                 stepper.current_time(), end));
    }
    double before = 0.0, after_step = 0.0;
    try {
      std::tie(before, after_step) = stepper.do_step(system);
    } catch (const odeint::step_adjustment_error&) {
      throw base::NotConverged(
          procedure, fmt::format("no step is small enough at {:.9g}", stepper.current_time()));
    }
    check_finite(stepper.current_state(), after_step, procedure);
    const double after = std::min(after_step, end);
    stepper.calc_state(after, between);

    double last = after;
    bool finished = after_step >= end;
    if (stop && stop(after, between) <= 0.0) {
      const auto crossing = [&](double s) {
        State here(between.size());
        stepper.calc_state(s, here);
        return stop(s, here);
      };
      // The event lies in this step; a step that starts on it exactly was handled at its end.
      last = root_between(crossing, before, after, procedure).value;
      finished = true;
      path.stopped = true;
    }
    for (; next_kept() < (finished ? last - coincide : last); ++kept) {
      stepper.calc_state(next_kept(), between);
      keep(next_kept(), between);
    }
    if (finished) {
      stepper.calc_state(last, between);
      keep(last, between);
      return path;
    }
  }
}

}  // namespace lynearm::numeric
