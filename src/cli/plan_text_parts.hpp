// The parts of a plan's text, each in its own file and each ending its last line.
#pragma once

#include <string>

#include "cli/plan_text_words.hpp"

namespace lynearm::cli::planned {

[[nodiscard]] std::string bill_part(const Batch& batch);
/// Empty for a bill of sugars alone.
[[nodiscard]] std::string mash_part(const Batch& batch);
/// Sugar boiled apart, cooling, topping up: what stands before the pitch.
[[nodiscard]] std::string wort_part(const Batch& batch);
[[nodiscard]] std::string ferment_part(const Batch& batch);
[[nodiscard]] std::string strip_part(const Batch& batch);
[[nodiscard]] std::string spirit_part(const Batch& batch);
[[nodiscard]] std::string reduce_part(const Batch& batch);
/// Empty without wood.
[[nodiscard]] std::string wood_part(const Batch& batch);
[[nodiscard]] std::string bottle_part(const Batch& batch);
[[nodiscard]] std::string classes_part(const Batch& batch);
[[nodiscard]] std::string ledger_part(const Batch& batch);
[[nodiscard]] std::string timeline_part(const Batch& batch);

/// How long to a temperature by the way the recipe says, and by the others the vessel has.
[[nodiscard]] Line cooling_line(const Batch& batch, const plan::CoolingPlan& cooling);

}  // namespace lynearm::cli::planned
