// The cues of a day: where liquids boil and where the head stands as the spirit weakens, in
// today's air, truly and as today's thermometer shows them. From todays_air.hpp; pure pot-still
// cues: the head's is the dew point of the vapour that leaves it, whatever the head sends back.
#pragma once

#include <optional>
#include <vector>

#include "still/todays_air.hpp"
#include "units/quantity.hpp"

namespace lynearm::still {

enum class CueOf {
  boiling,  ///< a liquid of that strength in the pot
  head,     ///< vapour that makes spirit of that strength at the spout
};

struct DaysCue {
  CueOf of = CueOf::head;
  units::VolumeStrength strength;
  units::Temperature truly;  ///< by today's pressure
  Cue cue;                   ///< as the thermometer shows it, and how far that may be off
};

/// The cues of a day, each kind from the strongest to the weakest.
///
/// liquids    whose boiling is asked for; without any: water, and a usual wash and charge (8
///            and 28 %vol)
/// returns    those, then the head's for spirit of 80 to 10 %vol, 65 and 56 among them
/// accuracy   as boiling_cue() and dew_cue()
[[nodiscard]] std::vector<DaysCue> days_cues(const TodaysAir& air,
                                             std::vector<units::VolumeStrength> liquids = {});

}  // namespace lynearm::still
