// Lots on wood as they are forecast: by what the journal tells of their laying and handling and
// of the wood they lay on before, in the casks and staves, the cellar and the time of the
// batch's plan. Leaves out what wood that was used gives back of the spirit before.
#pragma once

#include <vector>

#include "journal/state.hpp"
#include "station/planned.hpp"
#include "wire/wood_forecast.hpp"

namespace lynearm::station {

/// made       the batch's plan: its kit's casks, staves and humidity, its recipe's temperature
///            and time, and what wood and staves the journal leaves untold
/// lot        on wood, of `batch`
/// now        at or after its filling
/// returns    `untold` where the wood is not known or outside what can be forecast
/// accuracy   extract 40 %, evaporation as the kit doubts it (docs/rooms/wood.md)
[[nodiscard]] wire::WoodForecast on_wood(const PlanMade& made, const journal::HouseState& house,
                                         const journal::BatchState& batch,
                                         const journal::LotState& lot, journal::Moment now);

/// Of each lot of the batch that still lies on wood, in the order they were laid.
[[nodiscard]] std::vector<wire::WoodForecast> on_wood(const PlanMade& made,
                                                      const journal::HouseState& house,
                                                      const journal::BatchState& batch,
                                                      journal::Moment now);

}  // namespace lynearm::station
