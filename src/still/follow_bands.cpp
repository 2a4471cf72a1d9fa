#include "still/follow_bands.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"

namespace lynearm::still {

numeric::Band weighted_band(std::vector<Weighted>& sample) {
  std::sort(sample.begin(), sample.end(),
            [](const Weighted& a, const Weighted& b) { return a.value < b.value; });
  double whole = 0.0;
  for (const Weighted& w : sample) whole += w.weight;
  base::ensure(whole > 0.0, "a band is made of something");
  const auto quantile = [&](double share) {
    double sum = 0.0, middle_before = 0.0;
    const Weighted* before = nullptr;
    for (const Weighted& w : sample) {
      if (w.weight <= 0.0) continue;
      const double middle = (sum + 0.5 * w.weight) / whole;
      if (middle >= share) {
        if (before == nullptr) return w.value;
        return std::lerp(before->value, w.value,
                         (share - middle_before) / (middle - middle_before));
      }
      sum += w.weight;
      middle_before = middle;
      before = &w;
    }
    return before->value;
  };
  return {quantile(0.1), quantile(0.5), quantile(0.9)};
}

void widen(std::vector<Weighted>& sample, double factor) {
  std::vector<Weighted> sorted = sample;
  const double median = weighted_band(sorted).median;
  for (Weighted& w : sample) w.value = median + factor * (w.value - median);
}

}  // namespace lynearm::still
