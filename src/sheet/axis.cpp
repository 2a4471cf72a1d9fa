#include "sheet/axis.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.hpp"
#include "sheet/letter.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {

namespace {

// The smallest step of 1, 2 or 5 times a power of ten that is not less than `least`.
double round_step(double least) {
  const double power = std::pow(10.0, std::floor(std::log10(least)));
  for (const double digit : {1.0, 2.0, 5.0}) {
    if (digit * power >= least * (1.0 - 1e-9)) return digit * power;
  }
  return 10.0 * power;
}

Ticks from_to(double first, double last, double step) {
  Ticks ticks;
  ticks.step = step;
  ticks.decimals = std::max(0, -static_cast<int>(std::floor(std::log10(step) + 1e-9)));
  // Whole multiples of the step, so that no rounding adds up.
  for (double k = first; k <= last; k += 1.0) ticks.at.push_back(k == 0.0 ? 0.0 : k * step);
  return ticks;
}

double checked_span(double low, double high) {
  base::ensure(std::isfinite(low) && std::isfinite(high) && low < high, "an axis has a length");
  // Below this the steps are lost in the rounding of the figures themselves.
  base::ensure(high - low > 1e-9 * std::max(std::abs(low), std::abs(high)),
               "an axis has steps");
  return high - low;
}

// `steps` steps that cover low...high, as small as may be.
Ticks covering_in(double low, double high, int steps) {
  double step = round_step(checked_span(low, high) / steps);
  while (std::floor(low / step + 1e-9) + steps < high / step - 1e-9) {
    step = round_step(step * 1.5);
  }
  const double first = std::floor(low / step + 1e-9);
  return from_to(first, first + steps, step);
}

}  // namespace

std::string Ticks::text(double value) const {
  return with_minus(units::fixed(value, decimals));
}

Ticks ticks_inside(double low, double high, int wanted, bool of_clock_minutes,
                   bool of_clock_hours) {
  const double span = checked_span(low, high);
  double step = round_step(span / wanted);
  const auto pick = [&](const auto& steps) {
    for (const double clock : steps) {
      if (span / clock <= wanted) return clock;
    }
    return step;
  };
  if (of_clock_minutes && span / wanted > 5.0) {
    step = pick(std::array{10.0, 15.0, 20.0, 30.0, 60.0, 120.0, 240.0, 480.0, 720.0, 1440.0});
  } else if (of_clock_hours && span / wanted > 2.0) {
    step = pick(std::array{3.0, 6.0, 12.0, 24.0, 48.0, 120.0, 240.0});
  }
  return from_to(std::ceil(low / step - 1e-9), std::floor(high / step + 1e-9), step);
}

Ticks ticks_covering(double low, double high, int wanted) {
  const double step = round_step(checked_span(low, high) / wanted);
  return from_to(std::floor(low / step + 1e-9), std::ceil(high / step - 1e-9), step);
}

std::pair<Ticks, Ticks> ticks_of_both(double left_low, double left_high, double right_low,
                                      double right_high, int wanted) {
  std::pair<Ticks, Ticks> best;
  double least = 1e300;
  for (int steps = std::max(2, wanted - 2); steps <= wanted + 3; ++steps) {
    auto left = covering_in(left_low, left_high, steps);
    auto right = covering_in(right_low, right_high, steps);
    const auto used = [&](const Ticks& ticks, double low, double high) {
      return (high - low) / (ticks.step * steps);
    };
    const double empty = 2.0 - used(left, left_low, left_high) -
                         used(right, right_low, right_high) + 0.05 * std::abs(steps - wanted);
    if (empty < least) {
      least = empty;
      best = {std::move(left), std::move(right)};
    }
  }
  return best;
}

}  // namespace lynearm::sheet
