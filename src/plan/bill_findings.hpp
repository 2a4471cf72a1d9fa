// What the bill itself says: too few enzymes, raw grain that was not cooked, and so on; as
// findings when it converts all the same, as a refusal when it does not.
#pragma once

#include <vector>

#include "base/error.hpp"
#include "plan/finding.hpp"
#include "plan/mash_stage.hpp"

namespace lynearm::plan {

void bill_findings(const BillPlan& bill, std::vector<Finding>& findings);

/// Why the bill cannot convert, each with what would mend it; empty when it can.
[[nodiscard]] std::vector<base::Fault> refusals(const BillPlan& bill);

}  // namespace lynearm::plan
