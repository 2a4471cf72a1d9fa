// A run of a still as JSON: one object, one line. The first four keys are fixed for good.
#pragma once

#include <string>

#include "still/run.hpp"

namespace lynearm::wire {

/// What every surface shows beside a run of a still.
inline constexpr const char* still_caution =
    "never leave a heated still. If the coolant fails: heat off first.";

/// A stripping run: low_wines_volume_L_20C, low_wines_percent_vol, alcohol_recovered_fraction,
/// pot_left_percent_vol; then first and last drop, temperatures, the heat it took once it
/// boiled, what was asked, and the caution. Strengths are % by volume at 20 °C.
[[nodiscard]] std::string stripping_json(const still::Run& run, units::Pressure pressure);

}  // namespace lynearm::wire
