// Today's air as a part of other documents. For the sources of this room only.
#pragma once

#include <vector>

#include "still/days_cues.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {

/// The value of "todays_air": see todays_air.hpp. Without cues there is no such key.
[[nodiscard]] Json air_json(const still::TodaysAir& air,
                            const std::vector<still::DaysCue>& cues = {});

}  // namespace lynearm::wire
