// Boiling and condensing as JSON: one object, one line, keys that name their unit. The first
// four keys are fixed for good; more may follow them. Holds no physics: figures are those of
// vapour/ and spirit/.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "still/days_cues.hpp"
#include "vapour/boiling_mixture.hpp"
#include "vapour/equilibrium.hpp"

namespace lynearm::wire {

/// bubble_temperature_C, vapour_mole_fraction, liquid_percent_vol, vapour_percent_vol; then
/// liquid_mole_fraction, the same by mass, relative_volatility and activity coefficients,
/// enthalpies (above both pure liquids at 0 °C) and heat of vaporisation, the azeotrope and the
/// pressure. Strengths are % by volume at 20 °C, those of the vapour once condensed. The
/// bubble point of the liquid is the dew point of the vapour. With the day's air its object
/// comes last: see todays_air.hpp.
[[nodiscard]] std::string boiling_json(const vapour::BoilingMixture& mixture,
                                       const vapour::Azeotrope& azeotrope,
                                       const std::optional<still::TodaysAir>& air = {},
                                       const std::vector<still::DaysCue>& cues = {});

}  // namespace lynearm::wire
