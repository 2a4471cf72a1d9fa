// A moment of the house's calendar: UTC to the millisecond, as RFC 3339 writes it. Leap seconds
// are left out, as in every clock the readings come from.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "units/quantity.hpp"

namespace lynearm::journal {

/// Milliseconds since 1970-01-01T00:00:00Z.
struct Moment {
  std::int64_t milliseconds = 0;

  friend constexpr auto operator<=>(const Moment&, const Moment&) = default;
  friend constexpr bool operator==(const Moment&, const Moment&) = default;
};

/// From `b` to `a`; below zero when `a` is earlier.
[[nodiscard]] constexpr units::Duration since(Moment a, Moment b) {
  return units::Duration::seconds(static_cast<double>(a.milliseconds - b.milliseconds) * 1e-3);
}

/// What was done in a while is written down within so long of it, in any order. Our choice.
inline constexpr units::Duration written_late = units::Duration::hours(2.0);
/// Clocks of devices that never met the house's differ by less. Our choice.
inline constexpr units::Duration clocks_differ = units::Duration::minutes(10.0);

// What a journal may hold. Wide on purpose: a wrong clock is told, not refused.
inline constexpr Moment first_moment{0};
inline constexpr Moment last_moment{7258118399999};  ///< the last of 2199

/// "2026-11-26T01:02:03.456Z"; the years 0 to 9999.
[[nodiscard]] std::string print(Moment moment);

/// How long a time is, for people: "24 s", "30 min", "5.2 h", "7.1 days". Zero or more.
[[nodiscard]] std::string how_long(units::Duration time);

/// A date and time of RFC 3339, with "Z" or an offset, with or without a fraction of a second
/// (finer than a millisecond is cut off); from first_moment to last_moment. Nothing for any
/// other text, an impossible date among them.
[[nodiscard]] std::optional<Moment> read_moment(std::string_view text);

}  // namespace lynearm::journal
