// One run of the still as the plan needs it, strip or spirit: heating, running, cooling, what
// comes and what stays.
#pragma once

#include <string>
#include <vector>

#include "plan/still_stage.hpp"

namespace lynearm::plan {

struct RunWish {
  bool gentle = false;  ///< a spirit run: slower, where the heat can be turned down
  units::Temperature spout_temperature;
  still::Stop stop;
  units::Mass solids;  ///< dry, in the pot; takes room and heat
  /// Key of the recipe that says where the run ends, and what stands there.
  std::string stop_key;
  std::string stop_shown;
};

/// A run of `charge`, heated at the boiler's full power and then driven as wished.
///
/// throws     InputError with the recipe's and the kit's own keys: for a stop that the first
///            drops are already past, for a fire too small to drive vapour past the head
[[nodiscard]] RunPlan plan_run(const still::Charge& charge, const RunWish& wish, const Kit& kit,
                               const Drawn& drawn, const vapour::BoilingCurve& curve);

/// From less left than so many times what the element needs over it, it will soon show (our
/// choice).
inline constexpr double element_soon_shows = 1.2;

/// What is not right about a run in this boiler: too full, element bare, coolant short.
void run_findings(const RunPlan& plan, const Kit& kit, const std::string& stage,
                  std::vector<Finding>& findings);

}  // namespace lynearm::plan
