// The last parts of a plan, made from its stages: each in a file of its own.
#pragma once

#include "plan/plan.hpp"

namespace lynearm::plan {

[[nodiscard]] Ledger make_ledger(const Plan& plan);
[[nodiscard]] Uses make_uses(const Recipe& recipe, const Plan& plan);
[[nodiscard]] Timeline make_timeline(const Recipe& recipe, const Kit& kit, const Plan& plan);

}  // namespace lynearm::plan
