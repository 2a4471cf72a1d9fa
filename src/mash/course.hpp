// The mash as a curve of temperature over time, for pictures: heating, cooking, moving,
// cooling, doughing in, resting, draining, one part put after another.
#pragma once

#include <vector>

#include "mash/cooling.hpp"
#include "mash/rest.hpp"
#include "units/quantity.hpp"

namespace lynearm::mash {

enum class Phase { heating, cooking, moving, cooling, doughing_in, resting, draining };

struct CoursePoint {
  units::Duration at;  ///< from the start of the mash
  units::Temperature temperature;
  Phase phase = Phase::heating;
};

/// Ascending in time; the end of one part and the start of the next stand at one moment.
using Course = std::vector<CoursePoint>;

/// A straight part: cooking at the boil, moving, doughing in, draining.
void append(Course& course, Phase phase, units::Temperature start, units::Temperature end,
            units::Duration time);

/// Cooling from `start` to `end`, a point every few minutes. Throws as time_to_cool().
void append_cooling(Course& course, units::Temperature start, units::Temperature end,
                    units::HeatCapacity body, const Cooling& cooling,
                    units::Duration spacing = units::Duration::minutes(2.0));

/// Heating from `start` to `end`. Throws as time_to_heat().
void append_heating(Course& course, units::Temperature start, units::Temperature end,
                    units::HeatCapacity body, units::Power heat, units::HeatLoss loss,
                    units::Temperature ambient,
                    units::Duration spacing = units::Duration::minutes(2.0));

/// The rest, at the points it kept.
void append_rest(Course& course, const Rested& rested);

}  // namespace lynearm::mash
