// The reasons that figures of the gauge, of lots, of cuts and of the account carry. For the
// sources of this room only.
#pragma once

#include <string>
#include <vector>

#include "journal/account.hpp"
#include "journal/state.hpp"
#include "spirit/measured_reduction.hpp"
#include "wire/answer.hpp"
#include "wire/ask.hpp"
#include "wire/why.hpp"

namespace lynearm::wire {

[[nodiscard]] Why why_gauged(const GaugeAsked& asked);
[[nodiscard]] Why why_gravity(const GravityAsked& asked);
[[nodiscard]] Why why_reduced(const ReduceAsked& asked, const ReductionMade& made);
[[nodiscard]] Why why_blend(const std::vector<PartAsked>& parts);
/// Of what an allotment of jars gives; each jar and where it goes is an input.
[[nodiscard]] Why why_poured(const ShelfJars& shelf, const still::Allotment& allotment);
/// Of the choice that was proposed.
[[nodiscard]] Why why_cuts(const ShelfJars& shelf, const still::Purpose& purpose,
                           const still::CutProposal& proposal);
/// Of what is left of a lot, gauged on that glass.
[[nodiscard]] Why why_lot(const journal::LotState& lot, const journal::Glass& glass);
/// Of what a step leaves unaccounted for, its spirits read on that glass.
[[nodiscard]] Why why_step(const journal::AccountStep& step, const journal::Glass& glass);

inline constexpr const char* density_source = "OIML R 22 (1973), general formula";
inline constexpr const char* added_masses =
    "Masses of ethanol and water, which add exactly; volume and strength are asked of them by "
    "the density of the mixture, which contracts.";
inline constexpr const char* proof_gallon_source =
    "27 CFR 30.11 for US proof gallons: gallons at 60 °F of half alcohol by volume, reckoned "
    "from "
    "the mass of ethanol";
/// How well a house gauges on that glass, in words.
[[nodiscard]] std::string gauging_doubt(const journal::Glass& glass);

}  // namespace lynearm::wire
