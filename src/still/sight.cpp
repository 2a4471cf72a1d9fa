#include "still/sight.hpp"

#include <algorithm>
#include <cmath>

namespace lynearm::still {
namespace {

// What had come by then, while nothing ran.
units::Volume collected_by(const Run& run, units::Duration t) {
  const auto after = std::upper_bound(
      run.points.begin(), run.points.end(), t,
      [](units::Duration wanted, const Point& p) { return wanted < p.since_start; });
  return after == run.points.begin() ? units::Volume{} : (after - 1)->collected;
}

}  // namespace

Sight sight(const Run& run, units::Duration since_start) {
  Sight seen;
  if (const std::optional<Point> point = point_at_time(run, since_start)) {
    seen.pot = point->pot_temperature;
    seen.head = point->head_temperature;
    seen.spout = point->spout;
    seen.flow = point->flow;
    seen.collected = point->collected;
    return seen;
  }
  seen.collected = collected_by(run, since_start);
  const auto after = std::upper_bound(
      run.quiet.begin(), run.quiet.end(), since_start,
      [](units::Duration wanted, const Quiet& q) { return wanted < q.since_start; });
  if (after == run.quiet.end() && since_start > run.last().since_start) return seen;
  if (after == run.quiet.begin() || after == run.quiet.end()) {
    const Quiet& only = after == run.quiet.begin() ? run.quiet.front() : run.quiet.back();
    seen.pot = only.pot_temperature;
    seen.head = only.head_temperature;
    return seen;
  }
  const Quiet& a = *(after - 1);
  const Quiet& b = *after;
  const double part = (since_start - a.since_start) / (b.since_start - a.since_start);
  const auto between = [part](units::Temperature from, units::Temperature to) {
    return units::Temperature::kelvins(std::lerp(from.kelvins(), to.kelvins(), part));
  };
  seen.pot = between(a.pot_temperature, b.pot_temperature);
  seen.head = between(a.head_temperature, b.head_temperature);
  return seen;
}

}  // namespace lynearm::still
