// The two halves of the still stage, each in its own file.
#pragma once

#include "plan/still_stage.hpp"

namespace lynearm::plan {

[[nodiscard]] StripPlan plan_strip(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                                   const FermentPlan& ferment, bool foams,
                                   const vapour::BoilingCurve& curve,
                                   std::vector<Finding>& findings);

[[nodiscard]] SpiritPlan plan_spirit(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                                     const StripPlan& strip, const vapour::BoilingCurve& curve,
                                     std::vector<Finding>& findings);

}  // namespace lynearm::plan
