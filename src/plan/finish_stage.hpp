// From the hearts to the bottle: reduction to maturing strength, wood, reduction to bottling
// strength, bottles.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/drawn.hpp"
#include "plan/finding.hpp"
#include "plan/kit.hpp"
#include "plan/recipe.hpp"
#include "spirit/lot.hpp"
#include "wood/extraction.hpp"
#include "wood/surface.hpp"

namespace lynearm::plan {

struct ReducePlan {
  spirit::Lot hearts;      ///< after moving them
  spirit::Lot moved_loss;  ///< left in vessels on the way
  units::Mass water;
  units::Volume water_volume;  ///< at the water's temperature
  spirit::Lot result;
  units::Volume volume;  ///< at 20 °C
  units::VolumeStrength strength;
  units::Volume contraction;  ///< at 20 °C
};

struct WoodPlan {
  std::string in;        ///< "staves" or the cask's name
  int staves = 0;        ///< zero in a cask
  units::Volume filled;  ///< at 20 °C
  spirit::Lot into_wood;
  spirit::Lot beyond_cask;  ///< does not fit the cask; kept in glass
  units::AreaPerVolume surface;
  double times_a_200L_cask = 1.0;
  units::Share extract;  ///< of a new charred 200 L cask's eight years
  std::optional<units::Duration> like_cask_years;  ///< extract only: it is not age
  std::vector<units::Duration> sampling_days;
  units::Volume each_sample = units::Volume::millilitres(20.0);
  spirit::Lot samples;
  spirit::Lot soaked;
  /// Gone to the air. In a damp cellar water comes the other way, and its water is negative:
  /// ask for `evaporated_volume`, not for a strength.
  spirit::Lot evaporated;
  units::Volume evaporated_volume;  ///< by which the spirit shrank, at 20 °C
  spirit::Lot matured;
  units::VolumeStrength strength;  ///< of the matured spirit
  units::Volume volume;
  units::Duration time;
};

struct BottlePlan {
  spirit::Lot moved_loss;
  spirit::Lot filter_loss;
  units::Mass water;
  units::Volume volume;  ///< at 20 °C, after reduction
  units::VolumeStrength strength;
  int bottles = 0;
  units::Volume size;
  spirit::Lot in_bottles;
  spirit::Lot remainder;
  units::Volume remainder_volume;
};

struct FinishStage {
  ReducePlan reduce;
  std::optional<WoodPlan> wood;
  BottlePlan bottle;
};

/// hearts     may be empty: then so is everything after
[[nodiscard]] FinishStage plan_finish(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                                      const spirit::Lot& hearts,
                                      std::vector<Finding>& findings);

}  // namespace lynearm::plan
