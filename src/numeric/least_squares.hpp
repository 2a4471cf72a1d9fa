// The parameters that bring residuals nearest to nothing: damped Gauss-Newton steps after
// Levenberg and Marquardt, for a few parameters and up to some thousands of residuals.
//
// Model: residuals already divided by their standard deviations, so that the covariance needs
// no further figure. What the data cannot tell is not invented: the result says how many
// directions they do tell and how much of each parameter lies in the others. Outliers can be
// weighed down. Leaves out bounds (a residual function that refuses a place bounds it) and
// correlated residuals.
#pragma once

#include <functional>
#include <string_view>
#include <vector>

namespace lynearm::numeric {

/// How much a large residual counts.
enum class Loss {
  squares,  ///< r²
  huber,    ///< r² up to `loss_width`, linear beyond (Huber 1964)
  student,  ///< -2 ln of Student's t with `loss_width` degrees of freedom
};

/// Residuals (or their slopes, row by row: residuals times parameters) at a place.
using ResidualFunction = std::function<std::vector<double>(const std::vector<double>&)>;

/// Tolerances and choices of a least-squares search.
struct LeastSquaresControl {
  Loss loss = Loss::squares;
  /// Huber: in standard deviations; 0 means 1.345, which costs 5 % of the data's worth when
  /// they have no outliers (Huber 1964). Student: degrees of freedom; 0 means 4.
  double loss_width = 0.0;
  /// Half the central difference, as a share of each parameter's scale. Larger for a residual
  /// that is itself the end of an iteration and carries its noise.
  double difference = 1e-5;
  ResidualFunction slopes;  ///< used in place of differences when given
  /// Done when the undamped step still to go is shorter than this many standard uncertainties
  /// of the parameters (those that the residuals' own scatter gives).
  double tolerance = 1e-6;
  /// When no shorter step lowers the sum because figures end there, this is still accepted.
  double tolerance_when_stalled = 1e-2;
  /// Directions whose singular value is below this share of the largest (columns of the slopes
  /// brought to one length) count as not told by the data.
  double rank_tolerance = 1e-8;
  /// No parameter moves in one step by more than this many times its size (its scale, or its
  /// value where that is larger).
  double longest_step = 2.0;
  int most_iterations = 200;  ///< Jacobians
};

/// The place found, and how well it is known.
struct LeastSquares {
  std::vector<double> value;
  std::vector<double> residuals;  ///< there, unweighted
  std::vector<double> weights;    ///< of each squared residual; all 1 without a loss
  double sum_of_squares = 0.0;    ///< of `residuals`, unweighted
  /// Row by row: inverse of JᵀWJ, W the weights; Student's times (width + 3) / (width + 1), the
  /// inverse of its information. Where rank falls short, the pseudo-inverse: it speaks for the
  /// told directions only, and no uncertainty may be read from it for a parameter that is
  /// `untold`.
  std::vector<double> covariance;
  int rank = 0;  ///< directions the data tell; all of them when it is value.size()
  /// Of each parameter, 0 to 1: its part in the directions the data do not tell, with the
  /// parameters measured in units that change the residuals equally. 1: the residuals do not
  /// depend on it; near ½ for two that only count together.
  std::vector<double> untold;
  double step_left = 0.0;  ///< undamped, in standard uncertainties
  int iterations = 0;      ///< Jacobians computed

  [[nodiscard]] bool all_told() const { return rank == static_cast<int>(value.size()); }
  /// Square root of the diagonal.
  [[nodiscard]] double standard(std::size_t i) const;
  /// -1 to 1; 0 when either has no variance.
  [[nodiscard]] double correlation(std::size_t i, std::size_t j) const;
};

/// The least of the losses of `residuals`, near `start`: a local minimum.
///
/// residuals   each divided by its standard deviation, as many at every call, smooth. A place
///             it refuses (InputError), cannot compute (NotConverged) or answers with figures
///             that are not finite counts as a step too far, and a shorter one is tried. What
///             it throws at `start` comes through
/// scale       typical size of each parameter, above 0: for differences and first steps
/// procedure   named in the error, e.g. "fit of the still"
/// throws      NotConverged when no shorter step helps though there is a way to go, or after
///             the most iterations; what `residuals` throws on both sides of a place where a
///             slope is wanted
/// accuracy    six NIST StRD problems from both starts, tolerance 1e-9: certified parameters
///             to 3e-8, their standard deviations to 4e-7. 80 % intervals over 2000 lines of 40
///             readings cover 81 %; with 5 % of readings ten times as wide 51 %, by Huber's
///             loss 77 %, by Student's 85 % (tests/numeric/least_squares_test.cpp)
/// source      Marquardt, SIAM J. Appl. Math. 11 (1963) 431; damping after Nielsen, report
///             IMM-REP-1999-05; scaling of the columns after Moré (1978); stopping at a step in
///             units of uncertainty after Bates and Watts (1981); all from memory
[[nodiscard]] LeastSquares least_squares(const ResidualFunction& residuals,
                                         const std::vector<double>& start,
                                         const std::vector<double>& scale,
                                         std::string_view procedure,
                                         const LeastSquaresControl& control = {});

}  // namespace lynearm::numeric
