// A whole plan as JSON: one object, one line, keys that name their unit. Its schema is
// docs/schema/plan.schema.json, its page docs/plan-json.md; both are held to this by tests.
//
// "format" changes when a key changes its meaning or goes; keys may be added under one format.
// What a batch does not have (a cook, wood, bands, prices) is an absent key, never null. Holds
// no physics: figures are those of the plan, volumes and strengths of a lot are asked of
// spirit/. Curves are thinned to curve_points.
#pragma once

#include <cstddef>
#include <string>

#include "plan/figures.hpp"
#include "plan/kit.hpp"
#include "plan/plan.hpp"
#include "plan/recipe.hpp"

namespace lynearm::wire {

/// The value of the key "format".
inline constexpr const char* plan_format = "lynearm plan 1";

/// A curve is thinned to at most as many points; its first and its last stay.
inline constexpr std::size_t curve_points = 120;

/// The plan of a batch as a document.
///
/// recipe, kit   those the plan was made from
/// bands         of the same plan, or nullptr: then the figures have no low, median and high
/// returns       UTF-8 without a line end; the same text for the same plan. Bytes of a name
///               that are not UTF-8 become U+FFFD
/// throws        BrokenInvariant when a figure is not finite
[[nodiscard]] std::string plan_json(const plan::Recipe& recipe, const plan::Kit& kit,
                                    const plan::Plan& plan, const plan::Bands* bands = nullptr);

}  // namespace lynearm::wire
