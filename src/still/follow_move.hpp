// Where to draw possible stills from anew, once the weights have settled on a few. The
// constants that make a run: a multivariate Student-t about their weighted mean with their
// weighted covariance, and a twentieth from the prior, so that no region is shut out. Those of
// the instruments: for each run by itself, from the normal that its own readings point to. What
// was drawn is weighed by prior times likelihood over this density, which makes the answer
// independent of it.
#pragma once

#include <cstdint>
#include <vector>

#include "still/follow_prior.hpp"

namespace lynearm::still {

/// A density over the first run_constants of a standing, with eight degrees of freedom.
class Proposal {
 public:
  /// weights    of the standings, any scale, zero or more
  Proposal(const std::vector<Standing>& standings, const std::vector<double>& weights);

  /// Fills those of a standing: the same for the same numbers.
  void draw(std::uint64_t seed, std::uint64_t member, Standing& standing) const;
  /// Log of prior over density.
  [[nodiscard]] double log_prior_over(const Standing& standing) const;

 private:
  using Part = std::array<double, run_constants>;
  Part mean_{};
  std::array<Part, run_constants> lower_{};  ///< Cholesky factor of the scale matrix
  double log_determinant_ = 0.0;             ///< of that factor
};

/// A standing drawn from the prior.
[[nodiscard]] Standing draw_prior(std::uint64_t seed, std::uint64_t member);

/// Number of equal weights that would be as good.
[[nodiscard]] double effective_size(const std::vector<double>& weights);

/// Weights, summing to 1, from logarithms; -infinity is none. `power` tempers them.
[[nodiscard]] std::vector<double> weights_of(const std::vector<double>& logs,
                                             double power = 1.0);

/// The greatest power up to 1 that leaves an effective size of `wanted`.
[[nodiscard]] double tempering(const std::vector<double>& logs, double wanted);

}  // namespace lynearm::still
