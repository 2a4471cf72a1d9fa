// Small physics of the house that several stages share: heat losses as drawn, cooling times,
// findings about full vessels.
#pragma once

#include <string>
#include <vector>

#include "mash/cooling.hpp"
#include "plan/drawn.hpp"
#include "plan/finding.hpp"
#include "plan/kit.hpp"
#include "plan/mash_stage.hpp"

namespace lynearm::plan {

/// Draining and sparging take time at any scale: common practice, no source.
inline constexpr units::Duration first_run_off_time = units::Duration::minutes(25.0);
inline constexpr units::Duration sparge_time = units::Duration::minutes(20.0);
inline constexpr units::Duration doughing_in_time = units::Duration::minutes(10.0);
/// Hot porridge is ladled, not poured: some three litres a minute.
inline constexpr units::VolumeFlow ladling = units::VolumeFlow::litres_per_minute(3.2);
/// The lid is off for about half the time of stirring the grist in.
inline constexpr units::Duration stirring_open = units::Duration::minutes(5.0);

/// Water at the boil at the house's pressure.
[[nodiscard]] units::Temperature boiling_water(const Kit& kit);

/// How a vessel cools with the lid on or off, and with its coil running.
[[nodiscard]] mash::Cooling cooling_of(const Vessel& vessel, CoolBy by, const Kit& kit,
                                       const Drawn& drawn);

/// Times to cool what stands in `vessel`, by each way it has. A way that settles above `to`
/// is given no time; when the planned way is such, so is the plan: see CoolingPlan::planned,
/// which is then negative.
[[nodiscard]] CoolingPlan plan_cooling(const Vessel& vessel, units::HeatCapacity body,
                                       units::Temperature from, units::Temperature to,
                                       CoolBy by, const Kit& kit, const Drawn& drawn);

/// Adds a finding when `fullest` is over the vessel's brim (stop) or working volume (caution).
void watch_fullness(const Vessel& vessel, units::Volume fullest, const std::string& stage,
                    const std::string& when, std::vector<Finding>& findings);

/// Energy drawn to warm water or mash to `to` in the still's boiler or a kettle of its
/// efficiency; nothing when it is as warm already. Losses on the way are left out.
[[nodiscard]] units::Energy drawn_to_heat(const mash::Contents& contents, units::Temperature to,
                                          const Kit& kit);

/// The vessel of that name; the recipe was checked, so a missing one is our fault.
[[nodiscard]] const Vessel& vessel_named(const Kit& kit, const std::string& name);

}  // namespace lynearm::plan
