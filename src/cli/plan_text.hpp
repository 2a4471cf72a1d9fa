// A plan as text that a person can work from on the day: stage by stage in the order of the
// work, what was found first, each principal figure with its band, cautions at their steps.
#pragma once

#include <string>

#include "cli/look.hpp"
#include "plan/figures.hpp"
#include "plan/plan.hpp"

namespace lynearm::cli {

/// The whole plan, from a headline to its timeline. Lines are at most 100 columns wide in one
/// system of units; sentences that come from the plan itself (findings, steps) are metric.
///
/// recipe, kit  those the plan was made from
/// bands        of the principal figures; nullptr leaves them out
[[nodiscard]] std::string plan_text(const plan::Recipe& recipe, const plan::Kit& kit,
                                    const plan::Plan& plan, const plan::Bands* bands,
                                    const Look& look);

/// Where the figures come from: for each stage its model and source, and the constants of the
/// house it was reckoned with, with their spread.
[[nodiscard]] std::string why_text(const plan::Recipe& recipe, const plan::Kit& kit,
                                   const plan::Plan& plan, const Look& look);

}  // namespace lynearm::cli
