// A planned cut for people: the alternatives beside each other, then the jars of the
// recommended one.
#pragma once

#include <string>

#include "cli/look.hpp"
#include "wire/cut.hpp"

namespace lynearm::cli {

[[nodiscard]] std::string text(const wire::CutReport& report, const Look& look);
/// What is behind it: the worth, the loads, the optimum and their standing.
[[nodiscard]] std::string why(const wire::CutReport& report);

}  // namespace lynearm::cli
