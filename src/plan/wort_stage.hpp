// From run-offs and boiled sugar to the wort in the fermenter: together, cooled, topped up to
// a volume and a temperature at once.
#pragma once

#include <vector>

#include "plan/mash_stage.hpp"

namespace lynearm::plan {

/// Fills stage.sugar and stage.wort from stage.bill and stage.mash.
void plan_wort(const Recipe& recipe, const Kit& kit, const Drawn& drawn, MashStage& stage,
               std::vector<Finding>& findings);

}  // namespace lynearm::plan
