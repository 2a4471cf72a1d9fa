// What a batch needs next, by the stage that it is in; next_step() decides which that is.
#pragma once

#include "journal/state.hpp"
#include "station/planned.hpp"
#include "station/steps_ahead.hpp"
#include "wire/next_step.hpp"

namespace lynearm::station {

/// From the empty tub to the pitch. Once something is done the plan's steps give the times.
[[nodiscard]] wire::NextStep mash_day(const journal::BatchState& batch, const StepsAhead& steps,
                                      const PlanMade* made);

/// Of hearts that were cut, until all is in bottles.
[[nodiscard]] wire::NextStep after_the_cut(const journal::HouseState& house,
                                           const journal::BatchState& batch,
                                           const StepsAhead& steps, const PlanMade* made);

}  // namespace lynearm::station
