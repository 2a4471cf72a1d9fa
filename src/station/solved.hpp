// A batch changed to a wish, as a page asks for it: the engine's backward solving over two
// texts, and the keys of the recipe's text that then have to say something else.
#pragma once

#include <string>

#include "wire/ask.hpp"

namespace lynearm::station {

/// The answer as JSON. Takes from a tenth of a second to a few: it makes up to a hundred plans.
///
/// throws     InputError with the faults of the texts (fields of the kit under "kit."); of the
///            wish ("volume", "strength", "gravity", "line", "ingredient"), or "want" when the
///            recipe cannot be changed so
[[nodiscard]] std::string solved(const wire::SolveAsked& asked);

}  // namespace lynearm::station
