#include "record/clock.hpp"

#include <cmath>

namespace lynearm::record {
namespace {

constexpr double day_s = 86400.0;

// Up to two digits from the front of `text`, below `limit`; -1 for anything else.
int figure(std::string_view& text, int limit, bool two_digits) {
  int value = 0;
  int digits = 0;
  while (digits < 2 && !text.empty() && text.front() >= '0' && text.front() <= '9') {
    value = 10 * value + (text.front() - '0');
    text.remove_prefix(1);
    ++digits;
  }
  return digits == 0 || (two_digits && digits < 2) || value >= limit ? -1 : value;
}

}  // namespace

std::optional<units::Duration> clock_time(std::string_view text) {
  const int hours = figure(text, 24, false);
  if (hours < 0 || !text.starts_with(':')) return std::nullopt;
  text.remove_prefix(1);
  const int minutes = figure(text, 60, true);
  if (minutes < 0) return std::nullopt;
  int seconds = 0;
  if (text.starts_with(':')) {
    text.remove_prefix(1);
    seconds = figure(text, 60, true);
  }
  if (seconds < 0 || !text.empty()) return std::nullopt;
  return units::Duration::seconds(3600.0 * hours + 60.0 * minutes + seconds);
}

units::Duration Clock::since_heat_on(units::Duration time_of_day) const {
  if (!heat_on_) return {};
  // On the day of the heat, then moved by whole days.
  const double first_s = (time_of_day - *heat_on_).seconds();
  const double behind_s = latest_.seconds() - first_s;
  const double days =
      stopped_ ? std::ceil(behind_s / day_s) : std::floor(behind_s / day_s + 0.5);
  return units::Duration::seconds(first_s + days * day_s);
}

void Clock::pass(units::Duration at, units::Duration time_of_day, std::optional<bool> stopped) {
  if (!heat_on_) heat_on_ = time_of_day;
  if (at >= latest_) {
    latest_ = at;
    if (stopped) stopped_ = *stopped;
  }
}

}  // namespace lynearm::record
