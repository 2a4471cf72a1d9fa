#include "still/between_points.hpp"

#include <algorithm>

namespace lynearm::still {

Neighbours neighbours(const Run& run, std::size_t i) {
  const auto next = std::upper_bound(run.smooth.begin(), run.smooth.end(), i);
  const std::size_t begin = next == run.smooth.begin() ? 0 : *(next - 1);
  const std::size_t end = next == run.smooth.end() ? run.points.size() : *next;
  Neighbours near;
  near.count = std::min(most_neighbours, end - begin);
  near.start = std::clamp(i == 0 ? 0 : i - 1, begin, end - near.count);
  return near;
}

std::array<double, most_neighbours> weights(std::span<const double> nodes, double at) {
  std::array<double, most_neighbours> of{};
  for (std::size_t k = 0; k < nodes.size(); ++k) {
    of[k] = 1.0;
    for (std::size_t j = 0; j < nodes.size(); ++j) {
      if (j != k) of[k] *= (at - nodes[j]) / (nodes[k] - nodes[j]);
    }
  }
  return of;
}

}  // namespace lynearm::still
