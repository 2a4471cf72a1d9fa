// The state of the house as JSON, for the pages: the same text for the same state, byte for
// byte. Volumes in litres at 20 °C, temperatures in °C, times as RFC 3339; what is not known is
// left out.
#pragma once

#include <map>
#include <string>

#include "journal/state.hpp"
#include "wire/next_step.hpp"

namespace lynearm::wire {

/// All batches, short: name, when begun and last told, standing of its runs, puzzles.
/// next       what each batch needs next; a batch that is not named goes without
[[nodiscard]] std::string house_json(const journal::HouseState& house,
                                     const std::map<journal::Id, NextStep>& next = {});

/// One batch whole, with the lots it made and the account of its pure alcohol.
[[nodiscard]] std::string batch_json(const journal::HouseState& house,
                                     const journal::BatchState& batch,
                                     const NextStep* next = nullptr);

/// Every lot of the house.
[[nodiscard]] std::string lots_json(const journal::HouseState& house);

}  // namespace lynearm::wire
