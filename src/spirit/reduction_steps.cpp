#include "spirit/reduction_steps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "spirit/reduction_checks.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {

std::vector<ReductionStep> reduce_in_steps(const Lot& spirit, units::VolumeStrength to,
                                           int steps, const MixingTemperatures& t) {
  if (!(steps >= 1 && steps <= most_steps)) {
    throw base::InputError("steps", fmt::format("{}", steps),
                           fmt::format("1 to {} steps", most_steps));
  }
  const MeasuredReduction whole = reduce(spirit, to, t);
  const units::VolumeStrength from = strength(spirit);
  std::vector<ReductionStep> out;
  units::VolumeStrength before = from;
  units::Mass so_far;
  for (int k = 1; k <= steps; ++k) {
    const bool last = k == steps;
    const units::VolumeStrength after =
        last ? to : from + (to - from) * (static_cast<double>(k) / steps);
    // All water up to here is reckoned from the spirit at the start, so that no rounding is
    // carried from step to step.
    const units::Mass up_to_here =
        last ? whole.by_mass.water
             : std::clamp(spirit.ethanol / mass_fraction(after).fraction() - spirit.mass(),
                          so_far, whole.by_mass.water);
    ReductionStep step;
    step.before = before;
    step.after = after;
    step.water = up_to_here - so_far;
    step.water_volume = water_volume(step.water, t.water);
    step.result = spirit + Lot{{}, up_to_here};
    step.volume = volume(step.result, t.result);
    out.push_back(step);
    so_far = up_to_here;
    before = after;
  }
  return out;
}

int steps_of_at_most(units::VolumeStrength most, units::VolumeStrength from,
                     units::VolumeStrength to) {
  if (!(to.fraction() > 0.0 && to <= from)) {
    throw base::InputError("to", fmt::format("{:.2f} %vol", to.percent()),
                           fmt::format("above 0 and at most the spirit's own {:.2f} %vol; "
                                       "water cannot strengthen it",
                                       from.percent()));
  }
  // Ten points in steps of two are five steps, whatever the last bit says.
  constexpr double rounding = 1e-9;
  const double steps = std::max(1.0, std::ceil((from - to) / most - rounding));
  if (!(most.fraction() > 0.0 && steps <= most_steps)) {
    throw base::InputError(
        "step", fmt::format("{:.3f} %vol", most.percent()),
        fmt::format("at least {:.3f} %vol, which makes {} steps",
                    rounded_up((from - to).percent() / most_steps, 3), most_steps));
  }
  return static_cast<int>(steps);
}

}  // namespace lynearm::spirit
