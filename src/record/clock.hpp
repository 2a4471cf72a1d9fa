// Times off a wall clock, "21:40" or "21:40:30", turned into time since the heat was turned on.
//
// A clock does not say which day. A time is taken as the one within twelve hours of the latest
// so far, so that midnight is passed and a late entry still falls behind; once the run is
// stopped, as the next one to come, so that it may go on the morning after. A gap of half a day
// in a run that goes on, or of a day in one that is stopped, cannot be seen: log minutes or
// hours then. Leaves out changes between summer and winter time.
#pragma once

#include <optional>
#include <string_view>

#include "units/quantity.hpp"

namespace lynearm::record {

/// What a clock time looks like, for a fault.
inline constexpr std::string_view clock_words =
    "a time of day from 00:00 to 23:59, such as \"21:40\" or \"21:40:30\"";

/// Since midnight: "21:40", "9:05", "21:40:30". Empty when it is none.
[[nodiscard]] std::optional<units::Duration> clock_time(std::string_view text);

/// Days counted while times come in.
class Clock {
 public:
  /// heat_on    time of day when the heat was turned on; empty: at the first time that comes
  explicit Clock(std::optional<units::Duration> heat_on = std::nullopt) : heat_on_(heat_on) {}

  /// Since the heat was turned on; below zero for a time before it. time_of_day: 0 to below 24
  /// h.
  [[nodiscard]] units::Duration since_heat_on(units::Duration time_of_day) const;
  /// That a reading of this time was taken, and whether the run stands still behind it.
  void pass(units::Duration at, units::Duration time_of_day, std::optional<bool> stopped);

 private:
  std::optional<units::Duration> heat_on_;
  units::Duration latest_;
  bool stopped_ = false;
};

}  // namespace lynearm::record
