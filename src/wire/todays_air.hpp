// Today's air as JSON: pressure, thermometer and the day's cues, keys that name their unit.
// Holds no physics: figures are those of still/todays_air.hpp and still/days_cues.hpp.
#pragma once

#include <string>
#include <vector>

#include "still/days_cues.hpp"

namespace lynearm::wire {

/// One object with the one key "todays_air": pressure_hPa, pressure_sd_hPa,
/// thermometer_offset_K (shown less true), thermometer_offset_sd_K, their correlation, surprise
/// (in standard deviations; beyond 3 doubt the look first), account, and cues: each with what
/// it is of ("boiling", "head"), its strength, temperature_C, shown_C and shown_sd_K.
[[nodiscard]] std::string todays_air_json(const still::TodaysAir& air,
                                          const std::vector<still::DaysCue>& cues);

}  // namespace lynearm::wire
