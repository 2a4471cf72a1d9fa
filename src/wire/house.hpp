// The state of the house as JSON, for the pages: the same text for the same state, byte for
// byte. Volumes in litres at 20 °C, temperatures in °C, times as RFC 3339; what is not known is
// left out.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "journal/glass.hpp"
#include "journal/questions.hpp"
#include "journal/state.hpp"
#include "plan/room_gas.hpp"
#include "wire/next_step.hpp"

namespace lynearm::wire {

/// Where no kit is known, of every batch.
[[nodiscard]] inline journal::Glass no_glass(const std::optional<journal::Id>& /*batch*/) {
  return {};
}

/// All batches, short: name, when begun and last told, standing of its runs, how many entries
/// are asked about.
///
/// next       what each batch needs next; a batch that is not named goes without
/// glass_of   that its strengths are taken as read on: what cannot be is asked by it
/// by_kit     what kit and recipe ask besides, by batch
[[nodiscard]] std::string house_json(const journal::HouseState& house,
                                     const std::map<journal::Id, NextStep>& next = {},
                                     const journal::GlassOf& glass_of = no_glass,
                                     const journal::Questions& by_kit = {});

/// What speaks against the charge and the heat of runs; none is named against which nothing
/// does.
using AgainstBoiler = std::map<journal::Id, std::vector<std::string>>;

/// What is known of a batch by its plan and kit alone; nothing where it has none, or none that
/// reads.
struct ByKit {
  AgainstBoiler against;                ///< by run, a sentence each
  std::vector<journal::Puzzle> asked;   ///< besides what the house asks by itself
  std::optional<plan::GasPitched> gas;  ///< of the ferment, once pitched
};

/// One batch whole, with the lots it made, the account of its pure alcohol and what is asked.
///
/// glass      that its strengths are taken as read on: bands and questions rest on it
[[nodiscard]] std::string batch_json(const journal::HouseState& house,
                                     const journal::BatchState& batch,
                                     const NextStep* next = nullptr,
                                     const journal::Glass& glass = {},
                                     const ByKit& by_kit = {});

/// Every lot of the house.
[[nodiscard]] std::string lots_json(const journal::HouseState& house,
                                    const journal::GlassOf& glass_of = no_glass);

}  // namespace lynearm::wire
