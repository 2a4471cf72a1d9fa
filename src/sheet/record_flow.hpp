// What passed through Reduce and Wood, by the lots: only what came from outside a stage went
// into it, and only what left it came out of it, however often it was poured on within.
//
// Leaves out: what of a lot went to samples, and what gauging a lot anew found. The account of
// journal/ has these step by step.
#pragma once

#include <optional>
#include <vector>

#include "sheet/record_words.hpp"

namespace lynearm::sheet {

/// So much as one entry took out of a lot to pour it elsewhere.
struct Poured {
  const journal::LotState* from = nullptr;
  const journal::LotUse* use = nullptr;
};
/// What that entry poured out of lots into another, onto wood or into bottles.
[[nodiscard]] std::vector<Poured> poured_by(const journal::HouseState& house,
                                            const journal::Id& entry);

/// Spirit poured onto a lot that lies on wood.
struct Topping {
  const journal::LotState* lot = nullptr;
  const journal::LotUse* use = nullptr;     ///< of that lot, below nothing
  const journal::LotState* from = nullptr;  ///< null where that is not known
};
/// Onto wood of this batch, or told by it of another's.
[[nodiscard]] std::vector<Topping> toppings(const Record& record);

/// Whether it was poured together, so that its `made` is a reckoned sum.
[[nodiscard]] bool mixed(const journal::HouseState& house, const journal::LotState& lot);

/// What went into a stage and what left it; nothing of what did not happen.
struct Passed {
  std::optional<spirit::Lot> in, out;
};
/// Lots poured together on the way to maturing strength. As in the plan, what comes off the
/// wood and what is brought on to bottling strength is no part of it.
[[nodiscard]] Passed through_reduce(const Record& record);
/// All wood of the batch together: moved from one cask to the next is within.
[[nodiscard]] Passed through_wood(const Record& record);
/// What stood at maturing strength: out of Reduce, or laid on wood as it ran.
[[nodiscard]] std::optional<spirit::Lot> maturing(const Record& record);

}  // namespace lynearm::sheet
