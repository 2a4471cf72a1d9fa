// The batch sheet: the whole plan of a batch on paper, stage by stage, with a blank beside each
// figure that is measured on the day. One HTML text that needs nothing else; print it, pin it
// to the wall, write on it.
#pragma once

#include <string>

#include "plan/figures.hpp"
#include "plan/plan.hpp"
#include "sheet/page.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {

/// The sheet of a plan.
///
/// recipe, kit  those the plan was made from
/// bands        of the principal figures; nullptr leaves their column out
/// system       `both` sets the metric figure with the US one beside or below it; sentences of
///              findings and steps come from the plan and are metric
/// returns      HTML; the same text for the same plan
[[nodiscard]] std::string batch_sheet(const plan::Recipe& recipe, const plan::Kit& kit,
                                      const plan::Plan& plan, const plan::Bands* bands,
                                      units::System system, Paper paper);

}  // namespace lynearm::sheet
