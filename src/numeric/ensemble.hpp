// Many members of one forecast, each from its own seed, and what they say together.
//
// A member draws its constants from a Draw made of (seed, member), so members can be computed
// in any order on any number of threads with the same result. The caller brings the executor.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

namespace lynearm::numeric {

/// A stream of random numbers for one member. SplitMix64 counters turned into normals by the
/// inverse of the normal distribution, so every compiler draws the same numbers (the standard
/// library's distributions differ).
class Draw {
 public:
  Draw(std::uint64_t seed, std::uint64_t member);
  /// Uniform in (0, 1).
  [[nodiscard]] double uniform();
  /// Standard normal.
  [[nodiscard]] double normal();

 private:
  std::uint64_t state_;
};

/// A median and the 80 % band about it: the 10th and the 90th percentile.
struct Band {
  double low = 0.0;
  double median = 0.0;
  double high = 0.0;
};

/// The band of a sample. values: at least one, in any order, all finite. Quantiles by linear
/// interpolation between order statistics.
[[nodiscard]] Band band(std::vector<double> values);

/// Runs tasks 0 to count-1, in any order, possibly at once, and returns when all are done.
using Executor =
    std::function<void(std::size_t count, const std::function<void(std::size_t)>& task)>;

/// The executor that runs them one after another on the calling thread.
[[nodiscard]] Executor one_after_another();

}  // namespace lynearm::numeric
