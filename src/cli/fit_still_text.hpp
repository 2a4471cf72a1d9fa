// A fit of the still as text.
#pragma once

#include <string>

#include "cli/fit_still_input.hpp"
#include "cli/look.hpp"
#include "still/fit_still.hpp"

namespace lynearm::cli {

/// section    the kit's keys; empty when the runs told none of them
[[nodiscard]] std::string text(const still::StillFit& fit, const AskedFit& asked,
                               const std::string& section, bool why, const Look& look);

}  // namespace lynearm::cli
