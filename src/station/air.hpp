// The day's air at a run of the still: what was read on the day stands in place of the kit's
// pressure, which is that of its altitude. Weather moves what the head reads by half a degree.
#pragma once

#include <optional>
#include <vector>

#include "journal/state.hpp"
#include "units/quantity.hpp"

namespace lynearm::station {

/// A reading so long before the heat went on still tells of that day (our choice).
inline constexpr units::Duration air_holds = units::Duration::hours(24.0);

/// The latest reading of the air before the heat went on, no more than a day; else the first on
/// the run. One on the run that lies 3 hPa off, 0.1 K of boiling, takes its place. Of those of
/// the batch and those of the house; a barometer counts before boiling water.
///
/// returns    nothing where none was read, or where no air on earth boils water so
[[nodiscard]] std::optional<units::Pressure> air_of_run(
    const std::vector<journal::AirState>& of_house,
    const std::vector<journal::AirState>& of_batch, const journal::RunState& run);

}  // namespace lynearm::station
