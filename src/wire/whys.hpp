// The reasons that figures of the gauge, of lots and of the account carry. For the sources of
// this room only.
#pragma once

#include <vector>

#include "journal/account.hpp"
#include "journal/state.hpp"
#include "spirit/measured_reduction.hpp"
#include "wire/ask.hpp"
#include "wire/why.hpp"

namespace lynearm::wire {

[[nodiscard]] Why why_gauged(const GaugeAsked& asked);
[[nodiscard]] Why why_gravity(const GravityAsked& asked);
[[nodiscard]] Why why_reduced(const ReduceAsked& asked,
                              const spirit::MeasuredReduction& reduced);
[[nodiscard]] Why why_blend(const std::vector<PartAsked>& parts);
/// Of what is left of a lot.
[[nodiscard]] Why why_lot(const journal::LotState& lot);
/// Of what a step leaves unaccounted for.
[[nodiscard]] Why why_step(const journal::AccountStep& step);

}  // namespace lynearm::wire
