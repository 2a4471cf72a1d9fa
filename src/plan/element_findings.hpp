// The element in the still's boiler, before its heat is on: whether what is filled in covers
// it, a charge or the sparge water of mash day. One that stands bare burns dry. What a run
// leaves over it at its end: run_plan.hpp.
#pragma once

#include <string>
#include <vector>

#include "plan/finding.hpp"
#include "plan/kit.hpp"
#include "plan/recipe.hpp"

namespace lynearm::plan {

/// Whether the boiler has an element and the kit does not say what must stay over it.
[[nodiscard]] bool cover_unknown(const Boiler& boiler);

/// A caution that nothing can warn of a bare element.
///
/// fact       what is in the boiler, as the beginning of a sentence: "About 4.8 L is left ..."
[[nodiscard]] Finding cover_not_stated(const std::string& fact, const std::string& stage);

/// A danger: less is charged, at 20 °C with its grain, than the element needs over it.
[[nodiscard]] Finding charge_bares_element(units::Volume charge, const Boiler& boiler,
                                           const std::string& stage);

/// Sparge water that the still's boiler heats on mash day, all sparges together; nothing where
/// none needs heat, or where the boiler does not hold it.
[[nodiscard]] units::Volume water_in_boiler(const Recipe& recipe, const Kit& kit);

/// Adds a danger where that water does not cover the element, a caution where the kit does not
/// say what does.
void watch_water_in_boiler(const Recipe& recipe, const Kit& kit,
                           std::vector<Finding>& findings);

}  // namespace lynearm::plan
