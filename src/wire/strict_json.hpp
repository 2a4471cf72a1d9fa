// JSON from outside, read strictly: a name that is there twice, too deep a nest and broken text
// are faults, not guesses. For the sources of this room only.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {

/// The value of a text, or nothing and one more fault at `path`. Does not throw.
[[nodiscard]] std::optional<Json> parsed(std::string_view text, const std::string& path,
                                         std::vector<base::Fault>& faults);

}  // namespace lynearm::wire
