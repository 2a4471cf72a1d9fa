#include "numeric/ensemble.hpp"

#include <algorithm>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <utility>

#include "base/error.hpp"

namespace lynearm::numeric {
namespace {

std::uint64_t mixed(std::uint64_t z) {
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
  return z ^ (z >> 31U);
}

}  // namespace

Draw::Draw(std::uint64_t seed, std::uint64_t member)
    : state_(mixed(mixed(seed + 0x9e3779b97f4a7c15U) ^ mixed(member + 0x2545f4914f6cdd1dU))) {}

double Draw::uniform() {
  state_ += 0x9e3779b97f4a7c15U;
  // 53 bits, moved by half a step so that neither end is reached.
  return (static_cast<double>(mixed(state_) >> 11U) + 0.5) * 0x1.0p-53;
}

double Draw::normal() { return -std::sqrt(2.0) * boost::math::erfc_inv(2.0 * uniform()); }

Band band(std::vector<double> values) {
  base::ensure(!values.empty(), "a band is made of at least one value");
  std::sort(values.begin(), values.end());
  const auto quantile = [&values](double p) {
    const double place = p * static_cast<double>(values.size() - 1);
    const auto below = static_cast<std::size_t>(std::floor(place));
    const std::size_t above = std::min(below + 1, values.size() - 1);
    return std::lerp(values[below], values[above], place - std::floor(place));
  };
  return {quantile(0.1), quantile(0.5), quantile(0.9)};
}

Executor one_after_another() {
  return [](std::size_t count, const std::function<void(std::size_t)>& task) {
    for (std::size_t i = 0; i < count; ++i) task(i);
  };
}

}  // namespace lynearm::numeric
