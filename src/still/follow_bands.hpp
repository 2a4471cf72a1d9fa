// Quantiles of a weighted sample: what many possible stills say together.
#pragma once

#include <vector>

#include "numeric/ensemble.hpp"

namespace lynearm::still {

struct Weighted {
  double value = 0.0, weight = 0.0;
};

/// Where the running sum of the weights, counted to the middle of each, passes 10, 50 and 90 %
/// of the whole; between values in straight lines.
///
/// sample     at least one of positive weight
[[nodiscard]] numeric::Band weighted_band(std::vector<Weighted>& sample);

}  // namespace lynearm::still
