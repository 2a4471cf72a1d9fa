// How a figure is written in JSON: ten significant digits, which is more than any of our models
// knows and less than the noise of two compilers; nothing below 1e-12; never NaN. For the
// sources of this room only, so that the JSON library stays in it.
#pragma once

#include <nlohmann/json.hpp>

namespace lynearm::wire {

/// Keeps its keys in the order they were given.
using Json = nlohmann::ordered_json;

/// `value` as a JSON number.
/// throws     BrokenInvariant when it is not finite
[[nodiscard]] Json figure(double value);

}  // namespace lynearm::wire
