// The state of the house as JSON, for the pages: the same text for the same state, byte for
// byte. Volumes in litres at 20 °C, temperatures in °C, times as RFC 3339; what is not known is
// left out.
#pragma once

#include <string>

#include "journal/state.hpp"

namespace lynearm::wire {

/// All batches, short: name, when begun and last told, standing of its runs, puzzles.
[[nodiscard]] std::string house_json(const journal::HouseState& house);

/// One batch whole, with the lots it made and the account of its pure alcohol.
[[nodiscard]] std::string batch_json(const journal::HouseState& house,
                                     const journal::BatchState& batch);

/// Every lot of the house.
[[nodiscard]] std::string lots_json(const journal::HouseState& house);

}  // namespace lynearm::wire
