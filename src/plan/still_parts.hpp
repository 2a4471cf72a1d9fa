// The two halves of the still stage, each in its own file.
#pragma once

#include "plan/run_plan.hpp"
#include "plan/still_stage.hpp"

namespace lynearm::plan {

[[nodiscard]] StripPlan plan_strip(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                                   const FermentPlan& ferment, bool foams,
                                   const vapour::BoilingCurve& curve,
                                   std::vector<Finding>& findings);

[[nodiscard]] SpiritPlan plan_spirit(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                                     const StripPlan& strip, const vapour::BoilingCurve& curve,
                                     std::vector<Finding>& findings);

/// How the recipe drives and ends a run; its instruments off by their errors as drawn. Without
/// grain in the pot.
[[nodiscard]] RunWish strip_wish(const StripStep& step, const Drawn& drawn);
[[nodiscard]] RunWish spirit_wish(const SpiritRunStep& step, const Drawn& drawn);

}  // namespace lynearm::plan
