// A run of a still as JSON: one object, one line. The first four keys of a strip, and the curve
// of a spirit run with its first six keys, are fixed for good.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "still/run.hpp"
#include "still/todays_air.hpp"
#include "still/told_run.hpp"

namespace lynearm::wire {

/// What every surface shows beside a run of a still.
inline constexpr const char* still_caution =
    "never leave a heated still. If the coolant fails: heat off first.";
inline constexpr const char* spirit_caution =
    "spirit above 40 °C at the spout: vapour may be escaping. Heat off first, then see to the "
    "coolant.";
inline constexpr const char* coolant_caution =
    "coolant above 70 °C where it leaves: spirit condenses from 100 down to 78 °C, so little "
    "of "
    "the condenser is left for more heat, and vapour may pass it. More or colder coolant, or "
    "less "
    "heat. If the coolant fails: heat off first.";
inline constexpr const char* foreshots_caution =
    "foreshots are set aside, away from food and drink. Setting them aside does not make a "
    "spirit safe, and nothing here says that one is.";

/// A stripping run: low_wines_volume_L_20C, low_wines_percent_vol, alcohol_recovered_fraction,
/// pot_left_percent_vol; then first and last drop, temperatures, the heat it took once it
/// boiled, what was asked, and the caution. Strengths are % by volume at 20 °C.
/// With the day's air: what its thermometer shows of the temperatures (…_shown_C) and the air.
[[nodiscard]] std::string stripping_json(const still::Run& run, units::Pressure pressure,
                                         const std::optional<still::TodaysAir>& air = {});

/// A spirit run: "curve", then what it gave, what was asked, cuts, jars and congeners where
/// there are any, and the cautions. Strengths are % by volume at 20 °C; congeners in grams, and
/// by pure alcohol in g/hL.
/// With the day's air each row of the curve, and each border of a cut and a jar, also has its
/// temperatures as the day's thermometer shows them (…_shown_C), and the air comes last.
/// findings   what does not fit, worst first
[[nodiscard]] std::string spirit_json(const still::ToldRun& told,
                                      const std::optional<still::TodaysAir>& air = {},
                                      const std::vector<std::string>& findings = {});

}  // namespace lynearm::wire
