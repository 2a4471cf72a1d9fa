// The reasons that the forecast of a run carries. For the sources of this room only.
#pragma once

#include "wire/run_forecast.hpp"
#include "wire/why.hpp"

namespace lynearm::wire {

/// Of the state, the curves and the decisions of a run that is followed: how many readings they
/// rest on, and each constant of still, charge and instruments as it is known now.
[[nodiscard]] Why why_run(const RunForecast& run);

}  // namespace lynearm::wire
