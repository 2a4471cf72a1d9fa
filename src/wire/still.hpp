// A run of a still as JSON: one object, one line. The first four keys of a strip, and the curve
// of a spirit run with its first six keys, are fixed for good.
#pragma once

#include <string>

#include "still/run.hpp"
#include "still/told_run.hpp"

namespace lynearm::wire {

/// What every surface shows beside a run of a still.
inline constexpr const char* still_caution =
    "never leave a heated still. If the coolant fails: heat off first.";
inline constexpr const char* spirit_caution =
    "spirit above 40 °C at the spout: vapour may be escaping. Heat off first, then see to the "
    "coolant.";
inline constexpr const char* foreshots_caution =
    "foreshots are set aside, away from food and drink. Setting them aside does not make a "
    "spirit safe, and nothing here says that one is.";

/// A stripping run: low_wines_volume_L_20C, low_wines_percent_vol, alcohol_recovered_fraction,
/// pot_left_percent_vol; then first and last drop, temperatures, the heat it took once it
/// boiled, what was asked, and the caution. Strengths are % by volume at 20 °C.
[[nodiscard]] std::string stripping_json(const still::Run& run, units::Pressure pressure);

/// A spirit run: "curve", then what it gave, what was asked, cuts, jars and congeners where
/// there are any, and the cautions. Strengths are % by volume at 20 °C; congeners in grams, and
/// by pure alcohol in g/hL.
[[nodiscard]] std::string spirit_json(const still::ToldRun& told);

}  // namespace lynearm::wire
