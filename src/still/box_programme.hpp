// Shares of jars, each from none to all of it, with the least sum of squares of a few totals:
// the inner part of propose_cut.hpp, in bare figures. No checks of its input.
//
//   least  sum_k (g_k . h)^2 + c . h + tie * sum_i s_i h_i^2     over 0 <= h <= 1
//   with   s . h = total, and r . h = 0 where a balance is asked
//
// A convex quadratic programme: its optimum is found, not searched for. The last term is so
// small (1e-9) that it only decides between jars that are alike, which then share evenly; it
// makes the optimum single, so that the order of the jars cannot matter. Method: a primal-dual
// interior point that follows the central path from a feasible start, then one exact solution
// on the jars that it leaves split. Dense: for some two hundred jars.
#pragma once

#include <vector>

namespace lynearm::still {

struct BoxProgramme {
  std::vector<std::vector<double>> squares;  ///< g_k
  std::vector<double> linear;                ///< c; empty: none
  std::vector<double> size;                  ///< s, above zero
  double total = 0.0;                        ///< between zero and the sum of s
  std::vector<double> balance;               ///< r; empty: none
  std::vector<double> start;  ///< where a balance is asked: within the bounds, and meeting both
};

struct BoxSolution {
  std::vector<double> share;  ///< h
  double price = 0.0;         ///< d(least)/d(total)
  double residual = 0.0;      ///< worst of the optimality conditions, against their own size
  int iterations = 0;
};

/// The optimum.
///
/// throws     NotConverged when the optimality conditions are not met to 1e-7 of their size
[[nodiscard]] BoxSolution solve(const BoxProgramme& programme);

}  // namespace lynearm::still
