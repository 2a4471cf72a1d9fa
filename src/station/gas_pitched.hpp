// Carbon dioxide of a ferment as it was pitched, not as it was planned: ten times the wort
// gives ten times the gas in the same room.
#pragma once

#include <optional>

#include "journal/state.hpp"
#include "plan/room_gas.hpp"
#include "station/planned.hpp"

namespace lynearm::station {

/// Sugar that went in between pitch and racking, for reckoning the most gas: all that was told
/// by mass is taken for sugar, and what was told by volume for syrup or honey of 1.2 kg a litre
/// (a bound), but not backset and water. Nobody says what an addition holds.
[[nodiscard]] units::Mass sugar_fed(const journal::BatchState& batch);

/// Gas of volume and gravity as pitched, with what was fed as if it had been in the wort from
/// the pitch, at the plan's temperature and in its room. A pitch of yeast beyond what the pace
/// takes (0.02 to 10 g/L) is reckoned at that end.
///
/// returns    nothing before the pitch. Where no pace can be reckoned the mass alone, with why.
///            Racked wash stands by two alike gravities a day apart, or by two within 0.003 of
///            where all its sugar is gone (our choice), and nothing fed since; whether the
///            last of them is believed is for who follows the ferment to say
/// accuracy   as plan::room_gas()
[[nodiscard]] std::optional<plan::GasPitched> gas_pitched(const PlanMade& made,
                                                          const journal::BatchState& batch);

}  // namespace lynearm::station
