#include "numeric/uncertainty.hpp"

#include <cmath>
#include <cstddef>
#include <optional>

#include "base/error.hpp"

namespace lynearm::numeric {
namespace {

using Function = std::function<std::vector<double>(const std::vector<double>&)>;

// Nothing where `f` ends before it gets there; the other side then tells the slope.
std::optional<std::vector<double>> beside(const Function& f, std::vector<double> at,
                                          std::size_t input, double step) {
  at[input] += step;
  try {
    return f(at);
  } catch (const base::InputError&) {
    return std::nullopt;
  }
}

}  // namespace

double standard_of_limits(double half_width) { return half_width / std::sqrt(3.0); }

std::vector<MeasuredResult> propagate(const Function& f,
                                      const std::vector<MeasuredInput>& inputs) {
  std::vector<double> at;
  for (const MeasuredInput& input : inputs) at.push_back(input.value);
  const std::vector<double> middle = f(at);
  std::vector<MeasuredResult> results;
  for (const double value : middle) results.push_back({value, 0.0, {}});
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    const double standard = inputs[i].standard;
    base::ensure(standard >= 0.0, "a standard uncertainty is zero or more");
    const double step = 0.1 * standard;
    std::optional<std::vector<double>> above;
    std::optional<std::vector<double>> below;
    if (step > 0.0) {
      above = beside(f, at, i, step);
      below = beside(f, at, i, -step);
      if (!above && !below)
        above = f([&] {
          std::vector<double> moved = at;
          moved[i] += step;
          return moved;
        }());  // throws again, now to the caller
    }
    const double width = (above ? step : 0.0) + (below ? step : 0.0);
    for (std::size_t r = 0; r < results.size(); ++r) {
      const double rise =
          width > 0.0 ? (above ? (*above)[r] : middle[r]) - (below ? (*below)[r] : middle[r])
                      : 0.0;
      const double contribution = width > 0.0 ? rise / width * standard : 0.0;
      results[r].contributions.push_back(contribution);
      results[r].standard = std::hypot(results[r].standard, contribution);
    }
  }
  return results;
}

}  // namespace lynearm::numeric
