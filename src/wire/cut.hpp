// A cut planned over jars as JSON: one object, one line. The first four keys are fixed for
// good.
#pragma once

#include <string>

#include "still/estimated_loads.hpp"
#include "still/propose_cut.hpp"

namespace lynearm::wire {

/// What stands beside every proposal of a cut.
inline constexpr const char* cut_estimate = "an estimate: nose and palate decide.";
inline constexpr const char* cut_caution =
    "methanol runs through the whole of a run and no cut removes it; discarding foreshots does "
    "not make a spirit safe, and nothing here says that one is. Smell first; taste diluted to "
    "30 %vol or less, a few drops at a time. Jars stand covered, away from flame.";

/// Jars, what was wished of them, and what was proposed.
struct CutReport {
  still::FilledJars filled;
  std::string purpose;  ///< id of the weights; "own" for the maker's
  still::Wishes wishes;
  still::CutProposal proposal;
};

/// recommended (a place in the list that follows), alternatives, jars, estimate; then what was
/// estimated, the weights, the yardstick and the caution. Loads are grams per hectolitre of
/// pure alcohol, with their 80 % band.
[[nodiscard]] std::string json(const CutReport& report);

}  // namespace lynearm::wire
