// What a maker could read off the still at any time of a computed run: temperatures, strength,
// volume, flow. True values: what an instrument makes of them is another matter.
#pragma once

#include <optional>

#include "still/run.hpp"
#include "units/quantity.hpp"

namespace lynearm::still {

/// The still at a time. What cannot be seen then is not given: no strength before the first
/// drop.
struct Sight {
  std::optional<units::Temperature> pot;
  std::optional<units::Temperature> head;
  std::optional<units::VolumeStrength> spout;  ///< true strength, by volume at 20 °C
  std::optional<units::VolumeFlow> flow;       ///< at 20 °C
  units::Volume collected;                     ///< at 20 °C
};

/// since_start   since the heat was turned on
/// returns       before the start as at the start; past the end of the run nothing but the
///               volume. Spirit running, as point_at_time(); while nothing runs, straight
///               between the run's quiet moments
[[nodiscard]] Sight sight(const Run& run, units::Duration since_start);

}  // namespace lynearm::still
