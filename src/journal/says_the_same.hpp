// What was upheld, against what is asked now: a question names figures of other entries beside
// its own, and as more is told of those they move a little. For the sources of this room only.
#pragma once

#include <string_view>

namespace lynearm::journal {

/// Whether two sentences are of the same words, with figures about as great: gravities to
/// 0.003, temperatures to 2 K, times to 30 %, amounts with another unit to 5 %; all to a step
/// of their last digit. A figure without a unit is a number or a name and must be the same. Our
/// choice.
[[nodiscard]] bool says_the_same(std::string_view one, std::string_view other);

}  // namespace lynearm::journal
