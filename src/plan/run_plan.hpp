// One run of the still as the plan needs it, strip or spirit: heating, running, cooling, what
// comes and what stays.
#pragma once

#include "plan/still_stage.hpp"

namespace lynearm::plan {

struct RunWish {
  units::Power power;  ///< drawn while it runs
  units::Share head_reflux;
  units::Temperature spout_temperature;
  still::Stop stop;
  units::Mass solids;  ///< dry, in the pot; takes room and heat
};

/// A run of `charge`, heated at the boiler's full power and then driven as wished.
[[nodiscard]] RunPlan plan_run(const still::Charge& charge, const RunWish& wish, const Kit& kit,
                               const Drawn& drawn, const vapour::BoilingCurve& curve);

/// Strength of the first drops of a charge.
[[nodiscard]] units::VolumeStrength first_spout(const still::Charge& charge,
                                                units::Share head_reflux,
                                                const vapour::BoilingCurve& curve);

/// What is not right about a run in this boiler: too full, element bare, coolant short.
void run_findings(const RunPlan& plan, const Kit& kit, const std::string& stage,
                  std::vector<Finding>& findings);

}  // namespace lynearm::plan
