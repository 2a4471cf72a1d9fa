#include "still/even_points.hpp"

#include <fmt/format.h>

#include "base/error.hpp"

namespace lynearm::still {

std::vector<Point> even_points(const Run& run, int count) {
  if (count < 2 || count > 100000) {
    throw base::InputError("points", fmt::format("{}", count), "2 to 100000");
  }
  const units::Volume from = run.first().collected;
  const units::Volume over = run.last().collected - from;
  std::vector<Point> points;
  points.reserve(static_cast<std::size_t>(count));
  points.push_back(run.first());
  for (int i = 1; i + 1 < count; ++i) {
    points.push_back(
        point_at_volume(run, from + over * (static_cast<double>(i) / (count - 1))));
  }
  points.push_back(run.last());
  return points;
}

}  // namespace lynearm::still
