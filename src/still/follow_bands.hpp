// Quantiles of a weighted sample: what many possible stills say together.
#pragma once

#include <array>
#include <vector>

#include "numeric/ensemble.hpp"
#include "still/follow_prior.hpp"

namespace lynearm::still {

struct Weighted {
  double value = 0.0, weight = 0.0;
};

/// Where the running sum of the weights, counted to the middle of each, passes 10, 50 and 90 %
/// of the whole; between values in straight lines.
///
/// sample     at least one of positive weight
[[nodiscard]] numeric::Band weighted_band(std::vector<Weighted>& sample);

/// How much wider than its members say what hangs on constants ahead is told: static constants
/// take on a little of what the real still does otherwise. Chosen by how often invented runs
/// (numbers up to 170) had their constants in the band.
inline constexpr double left_out = 1.15;

/// The same of each constant that makes a run. What a charge holds is found by what came of it,
/// and needs no widening; a pot's loss is told apart from the efficiency only by how long the
/// warming took, and mains that wandered meanwhile shift every later reading alike.
inline constexpr std::array<double, run_constants> left_out_of = {
    left_out, 1.3, left_out, 1.0, 1.0, left_out, left_out};

/// Each value moved away from the sample's median by that factor.
void widen(std::vector<Weighted>& sample, double factor);

}  // namespace lynearm::still
