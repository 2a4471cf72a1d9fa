// The clock of a run: how long the heater needs for the heat between two points. Kept apart
// from the distilling itself, which does not know time.
#pragma once

#include "still/run.hpp"

namespace lynearm::still {

/// Fills in since_boiling and drawn of every point, from into_pot and the setting's power.
/// Between two points the net power runs straight with the heat; a change of power splits the
/// interval at its volume.
/// throws     InputError("run.heating.power") when the net power is not above zero somewhere,
///            InputError("run.power_steps") when their volumes do not rise
void add_time(Run& run);

}  // namespace lynearm::still
