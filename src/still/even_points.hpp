// A run at even steps of what it has given, for tables and pictures: the integrator's own
// points crowd where the fire changes and thin out where little happens.
#pragma once

#include <vector>

#include "still/run.hpp"

namespace lynearm::still {

/// The run at `count` volumes in even steps, from the first drop to the end, both included.
/// Between the run's points by its own cubic: point_at_volume().
///
/// count      2 to 100,000; else InputError("points")
[[nodiscard]] std::vector<Point> even_points(const Run& run, int count);

}  // namespace lynearm::still
