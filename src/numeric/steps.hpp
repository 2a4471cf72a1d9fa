// One adaptive step after another of an ordinary differential equation of fixed size, for a
// model that looks at each step before it takes the next: phases, events, output between.
// Dormand-Prince 5(4) of Boost.Odeint; between the ends of a step runs the cubic of the two
// states and slopes. integrate.hpp is the plain way from start to end.
#pragma once

#include <algorithm>
#include <array>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>
#include <cstddef>

namespace lynearm::numeric {

/// A step that was taken.
template <std::size_t N>
struct TakenStep {
  using State = std::array<double, N>;
  double from = 0.0, to = 0.0;
  State at_from{}, at_to{}, slope_from{}, slope_to{};

  /// The state at `s` between `from` and `to`, fourth order in the length of the step.
  [[nodiscard]] State at(double s) const {
    const double h = to - from;
    const double t = (s - from) / h;
    const double u = 1.0 - t;
    const double a = u * u * (1.0 + 2.0 * t), b = t * t * (1.0 + 2.0 * u);
    const double c = u * u * t * h, d = t * t * u * h;
    State state;
    for (std::size_t i = 0; i < N; ++i) {
      state[i] = a * at_from[i] + b * at_to[i] + c * slope_from[i] - d * slope_to[i];
    }
    return state;
  }
};

/// A stepper over d(state)/ds = rate(state, slope, s).
///
/// relative   error allowed a step, of each element of the state
/// floor      the size below which an element's error no longer counts as relative; an infinite
///            floor leaves the element out of the control
template <std::size_t N>
class AdaptiveSteps {
 public:
  using State = std::array<double, N>;

  AdaptiveSteps(double relative, const State& floor) : relative_(relative), floor_(floor) {}

  /// Sets out from a state. first_step: a guess of the length.
  template <class Rate>
  void start(Rate&& rate, const State& state, double at, double first_step) {
    step_.to = at;
    step_.at_to = state;
    rate(state, step_.slope_to, at);
    next_ = first_step;
  }

  /// Takes a step of at most `longest`. False when the step would have to be shorter than
  /// rounding allows.
  template <class Rate>
  [[nodiscard]] bool advance(Rate&& rate, double longest) {
    step_.from = step_.to;
    step_.at_from = step_.at_to;
    step_.slope_from = step_.slope_to;
    double h = std::min(next_, longest);
    while (step_.from + h > step_.from) {
      State error;
      stepper_.do_step(rate, step_.at_from, step_.slope_from, step_.from, step_.at_to,
                       step_.slope_to, h, error);
      const double off = size(error);
      if (off <= 1.0) {
        step_.to = step_.from + h;
        const double grown = h * std::min(5.0, 0.9 * std::pow(std::max(off, 1e-10), -0.2));
        // A step cut short by `longest` says little against the length before it.
        next_ = h < next_ ? std::max(grown, next_) : grown;
        return true;
      }
      h *= std::isfinite(off) ? std::max(0.2, 0.9 * std::pow(off, -0.2)) : 0.2;
      next_ = h;
    }
    return false;
  }

  /// Shortens the step last taken to end at `at`, by a step of its own from its start.
  template <class Rate>
  void shorten(Rate&& rate, double at) {
    State error;
    stepper_.do_step(rate, step_.at_from, step_.slope_from, step_.from, step_.at_to,
                     step_.slope_to, at - step_.from, error);
    step_.to = at;
  }

  [[nodiscard]] const TakenStep<N>& last() const { return step_; }

 private:
  [[nodiscard]] double size(const State& error) const {
    double worst = 0.0;
    for (std::size_t i = 0; i < N; ++i) {
      const double scale =
          std::max({std::abs(step_.at_from[i]), std::abs(step_.at_to[i]), floor_[i]});
      const double part = std::abs(error[i]) / (relative_ * scale);
      if (std::isnan(part)) return part;
      worst = std::max(worst, part);
    }
    return worst;
  }

  boost::numeric::odeint::runge_kutta_dopri5<State> stepper_;
  double relative_;
  State floor_;
  TakenStep<N> step_;
  double next_ = 0.0;
};

}  // namespace lynearm::numeric
