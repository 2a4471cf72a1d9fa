// What a charge leaves over the boiler's element, before its heat is on: the planned run driven
// on another charge than the planned one. An element that shows in the vapour burns dry. Leaves
// out what the kit may be off by: it is one run with every constant at its median.
#pragma once

#include <optional>
#include <vector>

#include "plan/finding.hpp"
#include "plan/kit.hpp"
#include "plan/plan.hpp"
#include "plan/recipe.hpp"
#include "units/quantity.hpp"

namespace lynearm::plan {

/// A charge as it is about to be heated.
struct ChargeFilled {
  bool gentle = false;   ///< a spirit run; else a strip
  units::Volume volume;  ///< at 20 °C, grain and all
  /// Of what is liquid; the planned charge's where it is not told.
  std::optional<units::VolumeStrength> strength;
};

struct ChargeLeft {
  /// What the element needs over it; zero where there is none or the kit does not say.
  units::Volume needs;
  /// In the hot pot at the planned end, grain and all; not told without a plan, nor of a charge
  /// that does not cover the element as it is.
  std::optional<units::Volume> left;
  /// What of that is spirit and water, as it would be gauged.
  std::optional<spirit::Lot> spirit_left;
  std::vector<Finding> findings;  ///< "element-exposed" or "element-nearly-exposed"; or none
};

/// By the kit alone, as without a plan: only whether the charge covers the element.
[[nodiscard]] ChargeLeft charge_left(const ChargeFilled& charge, const Kit& kit);

/// By the plan's own run of that kind, its still and its end. A strip's extract and grain are
/// taken to be in the charge as they are in the planned one.
///
/// charge     volume above zero
/// plan       made of that recipe and kit
/// throws     InputError "strength" where no such charge boils or where extract and grain leave
///            no room for so much alcohol; "volume" where it gives no drop before the pot is
///            dry; else as plan_run() does. NotConverged as still::distil()
/// accuracy   of the run itself: still/run.hpp. At the planned charge it is the plan's figure
///            to rounding; within 0.005 L of `lynearm spirit` on four charges
///            (tests/plan/charge_left_test.cpp). The litres to stop before are rounded down to
///            0.1 L
[[nodiscard]] ChargeLeft charge_left(const ChargeFilled& charge, const Recipe& recipe,
                                     const Kit& kit, const Plan& plan);

}  // namespace lynearm::plan
