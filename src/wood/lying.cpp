#include "wood/lying.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/error.hpp"
#include "numeric/root.hpp"

namespace lynearm::wood {
namespace {

using units::Duration;
using units::Share;
using units::Volume;

void accept_volume(const char* field, Volume volume) {
  if (!(volume.litres() > 0.0 && std::isfinite(volume.litres())))
    throw base::InputError(field, fmt::format("{} L", volume.litres()), "above zero");
}

}  // namespace

Share extract(std::span<const Wood> woods, Duration time, const Rest& rest) {
  Share sum;
  for (const Wood& wood : woods) sum = sum + extract(wood, time, rest);
  return sum;
}

Lying::Lying(Volume filled, std::vector<Wood> woods, const Rest& rest, Share carried)
    : filled_(filled), woods_(std::move(woods)) {
  accept_volume("filled", filled);
  if (woods_.empty()) throw base::InputError("woods", "none", "one wood or more");
  if (!(carried.fraction() >= 0.0 && std::isfinite(carried.fraction())))
    throw base::InputError("carried", fmt::format("{}", carried.fraction()), "zero or more");
  (void)wood::extract(woods_, Duration{}, rest);  // refuses what it cannot reckon with
  stretches_.push_back({Duration{}, carried, filled, rest});
}

void Lying::draw(Duration at, Volume drawn) {
  at = in_order(at);
  Stretch next = stretches_.back();
  next.start = extract(at);
  next.from = at;
  next.booked = std::max(Volume{}, next.booked - drawn);
  stretches_.push_back(next);
}

void Lying::pour(Duration at, Volume there, Volume poured, units::VolumeStrength strength,
                 Share its) {
  accept_volume("there", there);
  accept_volume("poured", poured);
  at = in_order(at);
  Stretch next = stretches_.back();
  const double share = poured / (there + poured);
  next.start = extract(at) * (1.0 - share) + its * share;
  next.from = at;
  next.booked = next.booked + poured;
  next.rest.strength = strength;
  (void)wood::extract(woods_, Duration{}, next.rest);
  stretches_.push_back(next);
}

Share Lying::extract(Duration at) const {
  const auto after =
      std::upper_bound(stretches_.begin(), stretches_.end(), at,
                       [](Duration t, const Stretch& stretch) { return t < stretch.from; });
  return after == stretches_.begin() ? stretches_.front().start : within(*(after - 1), at);
}

std::optional<Duration> Lying::reaches(Share target) const {
  if (!(target.fraction() >= 0.0 && std::isfinite(target.fraction())))
    throw base::InputError("target", fmt::format("{}", target.fraction()), "zero or more");
  // From the end: a stretch that begins below is where it is passed for good, if it is.
  Duration end = Duration::years(100.0);
  std::optional<Duration> reached;
  for (auto stretch = stretches_.rbegin(); stretch != stretches_.rend(); ++stretch) {
    if (stretch->from > end) continue;  // told of a time past all
    if (within(*stretch, end) < target) return reached;
    if (stretch->start < target) {
      // In the root of time the curve is nearly straight.
      const auto root = numeric::root_between(
          [&](double root_s) {
            return (within(*stretch, Duration::seconds(root_s * root_s)) - target).fraction();
          },
          std::sqrt(stretch->from.seconds()), std::sqrt(end.seconds()), "time to an extract");
      return Duration::seconds(root.value * root.value);
    }
    reached = stretch->from;
    end = stretch->from;
  }
  return reached;
}

Share Lying::within(const Stretch& stretch, Duration at) const {
  const double thinner = std::min(1.0, filled_ / std::max(stretch.booked, filled_));
  const Duration since = std::max(stretch.from, at);
  return stretch.start + (wood::extract(woods_, since, stretch.rest) -
                          wood::extract(woods_, stretch.from, stretch.rest)) *
                             thinner;
}

Duration Lying::in_order(Duration at) const { return std::max(at, stretches_.back().from); }

}  // namespace lynearm::wood
