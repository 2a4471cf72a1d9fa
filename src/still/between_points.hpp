// Inside a run: which of its points a value between two of them hangs on, and by what weights.
// A cubic through up to four neighbours that no jump parts.
#pragma once

#include <array>
#include <cstddef>
#include <span>

#include "still/run.hpp"

namespace lynearm::still {

/// Neighbours of a cubic at most.
inline constexpr std::size_t most_neighbours = 4;

struct Neighbours {
  std::size_t start = 0, count = 0;
};
/// The points about the interval between points i and i+1, within its smooth stretch: one on
/// either side of it, or as many as there are.
[[nodiscard]] Neighbours neighbours(const Run& run, std::size_t i);

/// Lagrange's weights for a value at `at` from values at up to four nodes, each node once.
[[nodiscard]] std::array<double, most_neighbours> weights(std::span<const double> nodes,
                                                          double at);

}  // namespace lynearm::still
