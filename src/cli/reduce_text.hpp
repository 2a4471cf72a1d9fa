// A reduction in words.
#pragma once

#include <string>

#include "cli/look.hpp"
#include "cli/reduce_input.hpp"

namespace lynearm::cli {

[[nodiscard]] std::string text(const AskedReduction& asked, const Look& look);
[[nodiscard]] std::string why(const AskedReduction& asked, const Look& look);
[[nodiscard]] std::string text(const AskedCheck& asked, const Look& look);

}  // namespace lynearm::cli
