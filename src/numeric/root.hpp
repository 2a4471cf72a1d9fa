// Where a function crosses zero: bracket first, then polish (TOMS 748 of Alefeld, Potra and
// Shi, as in Boost.Math).
#pragma once

#include <functional>
#include <string_view>

namespace lynearm::numeric {

/// A root with what the solver knows about it.
struct Root {
  double value = 0.0;
  double residual = 0.0;  ///< the function at `value`
  int iterations = 0;
};

/// Tolerances of a root search.
struct RootTolerance {
  double width = 1e-12;  ///< stop when the bracket is narrower, relative to its size
  int most_iterations = 100;
};

/// The root of `f` between `low` and `high`.
///
/// f          continuous, of opposite sign (or zero) at the two ends
/// procedure  named in the error, e.g. "bubble point"
/// throws     NotConverged when the ends have one sign, a value is not finite, or the bracket
///            is still wider than the tolerance after the most iterations
[[nodiscard]] Root root_between(const std::function<double(double)>& f, double low, double high,
                                std::string_view procedure, RootTolerance tolerance = {});

/// The place of the least value of `f` between `low` and `high` (Brent). `f` must have one
/// minimum there; with several, one of them is returned.
[[nodiscard]] double minimum_between(const std::function<double(double)>& f, double low,
                                     double high);

}  // namespace lynearm::numeric
