#include "numeric/root.hpp"

#include <fmt/format.h>

#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "base/error.hpp"

namespace lynearm::numeric {

Root root_between(const std::function<double(double)>& f, double low, double high,
                  std::string_view procedure, RootTolerance tolerance) {
  int evaluations = 0;
  const auto counted = [&](double x) {
    ++evaluations;
    const double value = f(x);
    if (!std::isfinite(value)) {
      throw base::NotConverged(procedure, fmt::format("not finite at {:.9g}", x));
    }
    return value;
  };
  const double at_low = counted(low);
  if (at_low == 0.0) return {low, 0.0, evaluations};
  const double at_high = counted(high);
  if (at_high == 0.0) return {high, 0.0, evaluations};
  if ((at_low < 0.0) == (at_high < 0.0)) {
    throw base::NotConverged(procedure, fmt::format("no change of sign: {:.6g} at {:.9g}, "
                                                    "{:.6g} at {:.9g}",
                                                    at_low, low, at_high, high));
  }
  const auto narrow = [&](double a, double b) {
    return std::abs(b - a) <=
           tolerance.width * std::max(1.0, std::max(std::abs(a), std::abs(b)));
  };
  auto most = static_cast<std::uintmax_t>(tolerance.most_iterations);
  const auto [a, b] =
      boost::math::tools::toms748_solve(counted, low, high, at_low, at_high, narrow, most);
  // The better end of the bracket, put back into the equation.
  const double at_a = counted(a);
  const double at_b = counted(b);
  const Root root = std::abs(at_a) <= std::abs(at_b) ? Root{a, at_a, evaluations}
                                                     : Root{b, at_b, evaluations};
  if (!narrow(a, b) && root.residual != 0.0) {
    throw base::NotConverged(procedure,
                             fmt::format("bracket [{:.12g}, {:.12g}], residual {:.3g} "
                                         "after {} evaluations",
                                         a, b, root.residual, evaluations));
  }
  return root;
}

double minimum_between(const std::function<double(double)>& f, double low, double high) {
  // More bits than half the mantissa cannot be had from values of the function alone.
  constexpr int bits = 26;
  return boost::math::tools::brent_find_minima(f, low, high, bits).first;
}

}  // namespace lynearm::numeric
