// A run that is followed, as JSON: one object, one line, for each reading.
#pragma once

#include <string>
#include <vector>

#include "still/follow.hpp"

namespace lynearm::wire {

/// Warnings at the step that calls for them: spirit above 40 °C at the spout, coolant that
/// leaves above 70 °C, where little of the condenser is left that can take up more. The latter
/// limit is our choice, 8 °C under the boiling point of ethanol.
[[nodiscard]] std::vector<std::string> follow_cautions(const still::Reading& reading);

/// What a reading did and what is expected: "minutes", "reading" (1-based), "line" (of the text
/// it came in), "doubts" of this reading with words, "doubted_before", "remarks" (a power or
/// event that contradicts the log), "now" (with "says" when nothing runs at this power),
/// "decisions" (minutes from the reading, minutes since heat on, mL collected; each low,
/// median, high: the 80 % band; or "why_no_time"), "constants" with their standard deviations,
/// "cautions".
[[nodiscard]] std::string follow_json(const still::Reading& reading,
                                      const still::Update& update,
                                      const still::Forecast& forecast);

}  // namespace lynearm::wire
