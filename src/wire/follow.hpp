// A run that is followed, as JSON: one object, one line, for each reading.
#pragma once

#include <string>

#include "still/follow.hpp"

namespace lynearm::wire {

/// A warning at the step that calls for it: spirit above 40 °C at the spout, heat that goes on.
/// Empty when there is none.
[[nodiscard]] std::string follow_caution(const still::Reading& reading);

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
