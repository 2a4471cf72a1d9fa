// What a pot keeps when a run ends, by the last strength at the spout: nobody gauges a hot pot,
// but the vapour tells what it rose from.
//
// The pot is taken to hold the liquid whose vapour has the spout's strength, at one atmosphere.
// A head that sends some of the vapour back hands on more than the pot gives, so the pot is
// weaker than that by up to a quarter (a quarter running back, dilute): half of that is taken
// off, and stands as the doubt. Leaves out the liquid in coil and parrot, which shows what rose
// a minute earlier.
#pragma once

#include <optional>

#include "journal/pure_volume.hpp"
#include "journal/state.hpp"

namespace lynearm::journal {

/// Pure alcohol in the pot at the end of a run. What came over after the last strength was read
/// is taken off, at that strength.
///
/// returns    nothing for a run that has not ended, without a strength read at the spout near
///            its end, or when what is left can be told neither from the end nor from what was
///            collected
/// accuracy   runs of the engine whose heads send back up to a quarter, stopped at 10 %vol:
///            within a fifth (tests/journal/pot_left_test.cpp)
[[nodiscard]] std::optional<PureVolume> pot_left(const RunState& run);

}  // namespace lynearm::journal
