#include "sheet/record_thin.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace lynearm::sheet {
namespace {

constexpr std::size_t figures = 8;

bool bit(unsigned tells, std::size_t figure) { return (tells >> figure & 1U) != 0; }

// Readings at which the power is another than before.
std::vector<std::size_t> power_changes(const journal::RunState& run) {
  constexpr double another = 0.05;  // wider than a meter's own flutter; our estimate
  std::vector<std::size_t> changes;
  std::optional<double> before;
  for (std::size_t i = 0; i < run.readings.size(); ++i) {
    const auto& power = run.readings[i].reading.power;
    if (!power) continue;
    const double now = power->watts();
    if (before && std::abs(now - *before) <= another * std::max(now, *before)) continue;
    before = now;
    changes.push_back(i);
  }
  return changes;
}

}  // namespace

Thinned thinned(const std::vector<Glance>& all) {
  Thinned thin;
  thin.of = all.size();
  if (all.size() <= most_whole) {
    for (std::size_t i = 0; i < all.size(); ++i) thin.kept.push_back(i);
    return thin;
  }
  const double whole = (all.back().at - all.front().at).minutes();
  thin.step = units::Duration::minutes(
      std::max(1.0, std::ceil(whole / static_cast<double>(most_whole))));
  std::array<std::optional<units::Duration>, figures> last;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Glance& one = all[i];
    bool keep = one.always || (i + 1 == all.size() && one.tells != 0);
    for (std::size_t f = 0; f < figures && !keep; ++f) {
      keep = bit(one.tells, f) && (!last[f] || one.at - *last[f] >= thin.step);
    }
    if (!keep) continue;
    thin.kept.push_back(i);
    for (std::size_t f = 0; f < figures; ++f) {
      if (bit(one.tells, f)) last[f] = one.at;
    }
  }
  return thin;
}

Thinned thinned(const journal::RunState& run) {
  std::vector<Glance> all;
  for (const journal::RunPoint& point : run.readings) {
    const still::Reading& one = point.reading;
    Glance glance{one.at};
    glance.tells = (one.spout ? 1U : 0U) | (one.head_temperature ? 2U : 0U) |
                   (one.pot_temperature ? 4U : 0U) | (one.collected ? 8U : 0U) |
                   (one.power ? 16U : 0U);
    glance.always = one.event || !one.note.empty() || point.told.corrections > 0;
    all.push_back(glance);
  }
  const std::vector<std::size_t> changes = power_changes(run);
  if (changes.size() <= most_whole) {
    for (const std::size_t i : changes) all[i].always = true;
  }
  return thinned(all);
}

Thinned thinned(const std::vector<journal::FermentPoint>& points) {
  std::vector<Glance> all;
  for (const journal::FermentPoint& point : points) {
    all.push_back({journal::since(point.told.at, points.front().told.at),
                   (point.gravity ? 1U : 0U) | (point.temperature ? 2U : 0U),
                   point.told.corrections > 0});
  }
  return thinned(all);
}

Thinned thinned(const std::vector<journal::MashPoint>& points) {
  std::vector<Glance> all;
  for (const journal::MashPoint& point : points) {
    all.push_back({journal::since(point.told.at, points.front().told.at), 1U,
                   point.told.corrections > 0});
  }
  return thinned(all);
}

std::string thin_words(const Thinned& thin) {
  if (thin.step <= units::Duration{}) return {};
  return fmt::format(
      "Of {} readings one in {:.0f} min of each figure stands here, with whatever was noted, "
      "corrected or switched; all of them are in the journal.",
      thin.of, thin.step.minutes());
}

}  // namespace lynearm::sheet
