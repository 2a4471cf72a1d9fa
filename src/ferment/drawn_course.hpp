// One course that a ferment may take: the constants of a member turned into a curve of gravity
// and warmth. For this room's own sources.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "ferment/follow.hpp"

namespace lynearm::ferment {

/// How far a member lies from the plan, in standard deviations of PaceDoubt.
enum Off : std::size_t {
  off_vigour,
  off_lag,
  off_sugar,
  off_nitrogen,
  off_room,
  off_stop,
  offs
};
using Offs = std::array<double, offs>;

/// What one member says.
struct DrawnCourse {
  std::vector<double> at_h, gravity, t_C;
  std::optional<double> dry_h;  ///< none when it stops or is not dry within the horizon
  double end_gravity = 1.0;     ///< where it comes to stand
  double gone_on_to = 1.0;      ///< where it would if it went on
  double fading_h = 12.0;       ///< how the last sugar goes, once the course has ended
  double lag_h = 0.0;

  /// Of one that stops: where. The curve then runs out into this gravity.
  std::optional<double> stands_at;
  double room_C = 20.0;

  [[nodiscard]] double gravity_at(double hours) const;
  [[nodiscard]] double temperature_at(double hours) const;
  [[nodiscard]] double going_on_at(double hours) const;
  /// How far a warmth that was read lies off. What stands cools, at a pace that is not
  /// reckoned: anywhere between the room and what it would be if it went on.
  [[nodiscard]] double warmth_off(double hours, double read_C) const;
};

/// Factors that a member lays on the plan's.
[[nodiscard]] double vigour_factor(const PaceDoubt& doubt, const Offs& off);
/// Where a ferment that stops does so, as a share of its fall, and one standard deviation: it
/// may be anywhere (our estimate). It does so at once, not as sugar runs short.
inline constexpr double stops_about = 0.6;
inline constexpr double stops_spread = 0.25;
[[nodiscard]] double sugar_factor(const PaceDoubt& doubt, const Offs& off);

/// throws     as pace() does
[[nodiscard]] DrawnCourse drawn_course(const Batch& batch, const Kinetics& kinetics,
                                       const PaceDoubt& doubt, const Offs& off, bool stops,
                                       units::Duration horizon);

}  // namespace lynearm::ferment
