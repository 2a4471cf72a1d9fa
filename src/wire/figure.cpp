#include "wire/figure.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <string>

#include "base/error.hpp"

namespace lynearm::wire {

Json figure(double value) {
  base::ensure(std::isfinite(value), "a figure that leaves the engine is finite");
  // What is left when equal volumes are subtracted is rounding, not a contraction.
  constexpr double noise = 1e-12;
  if (std::abs(value) < noise) return 0.0;
  const std::string text = fmt::format("{:.9e}", value);
  double rounded = 0.0;
  std::from_chars(text.data(), text.data() + text.size(), rounded);
  return rounded;
}

}  // namespace lynearm::wire
