// The air pressure of a command: --pressure, or the mean at --altitude, or one atmosphere.
#pragma once

#include "cli/arguments.hpp"
#include "units/quantity.hpp"

namespace lynearm::cli {

/// Reads both options and notes a fault when both stand there or one is out of range: 20 to 120
/// kPa, -400 to 9000 m.
[[nodiscard]] units::Pressure air_pressure(Arguments& arguments);

}  // namespace lynearm::cli
