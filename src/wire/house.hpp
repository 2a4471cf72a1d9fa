// The state of the house as JSON, for the pages: the same text for the same state, byte for
// byte. Volumes in litres at 20 °C, temperatures in °C, times as RFC 3339; what is not known is
// left out.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>

#include "journal/glass.hpp"
#include "journal/state.hpp"
#include "wire/next_step.hpp"

namespace lynearm::wire {

/// All batches, short: name, when begun and last told, standing of its runs, puzzles.
/// next       what each batch needs next; a batch that is not named goes without
[[nodiscard]] std::string house_json(const journal::HouseState& house,
                                     const std::map<journal::Id, NextStep>& next = {});

/// One batch whole, with the lots it made and the account of its pure alcohol.
///
/// glass      that its strengths are taken as read on: bands rest on it
[[nodiscard]] std::string batch_json(const journal::HouseState& house,
                                     const journal::BatchState& batch,
                                     const NextStep* next = nullptr,
                                     const journal::Glass& glass = {});

/// The glass of a batch; of what belongs to none, that of the house.
using GlassOf = std::function<journal::Glass(const std::optional<journal::Id>& batch)>;
/// Every lot of the house.
[[nodiscard]] std::string lots_json(
    const journal::HouseState& house,
    const GlassOf& glass_of = [](const auto& /*batch*/) { return journal::Glass{}; });

}  // namespace lynearm::wire
