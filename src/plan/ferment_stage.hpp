// From the pitched wort to a clear wash: what the yeast needs, how long it takes, what it
// makes, what the gas does to the room, what stays with the lees.
#pragma once

#include <optional>
#include <vector>

#include "ferment/pace.hpp"
#include "ferment/pitch.hpp"
#include "ferment/yield.hpp"
#include "plan/drawn.hpp"
#include "plan/finding.hpp"
#include "plan/kit.hpp"
#include "plan/mash_stage.hpp"
#include "plan/recipe.hpp"
#include "wort/wash.hpp"

namespace lynearm::plan {

struct FermentPlan {
  units::SpecificGravity original_gravity;
  units::SpecificGravity final_gravity;
  units::VolumeStrength strength_if_dry;  ///< were all the fermentable sugar fermented
  units::VolumeStrength strength;         ///< of the wash, by volume at 20 °C
  units::Share alcohol_by_mass;
  units::Share apparent_attenuation;
  ferment::Fermented fermented;
  units::Mass yeast;  ///< dry, to pitch
  ferment::Nutrition nutrition;
  ferment::Pace pace;
  units::Duration dry_after;     ///< from pitching; the horizon when it is not dry
  units::Duration ready_after;   ///< with its rest
  units::Volume carbon_dioxide;  ///< gas, at 20 °C and the house's pressure
  units::VolumeFlow peak_carbon_dioxide;
  std::optional<units::Share> room_at_peak;  ///< carbon dioxide in the air, when it settles
  units::VolumeFlow fresh_air;               ///< to keep the 8 h limit at the peak
  units::Energy heat;
  units::TemperatureChange adiabatic_rise;
  units::TemperatureChange rise;  ///< of the vessel, without cooling, in its room
  units::Volume volume;           ///< of the wash at 20 °C, before racking
  wort::Wash racked;              ///< what goes to the still
  units::Volume racked_volume;    ///< at 20 °C, with solids when on the grain
  wort::Wash lees;                ///< left with the yeast
  units::Mass solids;             ///< dry, on the grain only
};

[[nodiscard]] FermentPlan plan_ferment(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                                       const WortPlan& wort, std::vector<Finding>& findings);

}  // namespace lynearm::plan
