// What of a batch is left beside the way it went: a run that its low wines or its wash still
// wait for, and spirit that was kept back when the rest of its lot went on. next_step.hpp names
// them; neither is ever overdue.
#pragma once

#include <string>

#include "journal/state.hpp"
#include "station/planned.hpp"
#include "units/quantity.hpp"

namespace lynearm::station {

/// Less of a lot than this is what clings to its vessel: our choice.
inline constexpr units::Volume worth_naming = units::Volume::millilitres(20.0);
/// Low wines, or wash, of this share of the greatest charge so far make one more run: our
/// choice. Less is what was left over on purpose or clings.
inline constexpr double share_of_a_charge = 0.25;

/// Did some of it go on, into a blend or a reduction, on wood, into bottles or a charge?
/// Samples and spills do not count.
[[nodiscard]] bool went_on(const journal::LotState& lot);

/// "spirit run 2 of 2" or "strip 3 of 3": the run that can be made while something else waits.
/// Empty when there is none.
///
/// made       the batch's plan, whose number of runs is not exceeded; null when it has none, or
///            when it is not computed yet: then nothing is named
[[nodiscard]] std::string another_run(const journal::HouseState& house,
                                      const journal::BatchState& batch, const PlanMade* made);

/// Spirit of a batch of which some went on: what stands there still, and the size of the
/// bottles that were filled last (zero when there are none).
struct KeptBack {
  units::Volume volume;
  units::Volume bottle;
};
[[nodiscard]] KeptBack kept_back(const journal::HouseState& house,
                                 const journal::BatchState& batch);

}  // namespace lynearm::station
