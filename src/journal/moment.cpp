#include "journal/moment.hpp"

#include <fmt/format.h>

#include <chrono>

namespace lynearm::journal {
namespace {

using std::chrono::days;
using std::chrono::floor;
using std::chrono::milliseconds;
using std::chrono::sys_days;
using std::chrono::sys_time;

// Takes digits and signs off the front of a text.
class Front {
 public:
  explicit Front(std::string_view text) : text_(text) {}

  std::optional<int> number(std::size_t count) {
    if (text_.size() < count) return std::nullopt;
    int value = 0;
    for (const char c : text_.substr(0, count)) {
      if (c < '0' || c > '9') return std::nullopt;
      value = value * 10 + (c - '0');
    }
    text_.remove_prefix(count);
    return value;
  }
  bool take(std::string_view any_of) {
    if (text_.empty() || any_of.find(text_.front()) == std::string_view::npos) return false;
    last_ = text_.front();
    text_.remove_prefix(1);
    return true;
  }
  char last() const { return last_; }
  bool empty() const { return text_.empty(); }
  std::string_view digits() {
    std::size_t count = 0;
    while (count < text_.size() && text_[count] >= '0' && text_[count] <= '9') ++count;
    const std::string_view found = text_.substr(0, count);
    text_.remove_prefix(count);
    return found;
  }

 private:
  std::string_view text_;
  char last_ = '\0';
};

struct Clock {
  int hour = 0, minute = 0, second = 0;
};

std::optional<sys_days> date(Front& front) {
  const auto year = front.number(4);
  if (!year || !front.take("-")) return std::nullopt;
  const auto month = front.number(2);
  if (!month || !front.take("-")) return std::nullopt;
  const auto day = front.number(2);
  if (!day) return std::nullopt;
  const std::chrono::year_month_day ymd{std::chrono::year(*year),
                                        std::chrono::month(static_cast<unsigned>(*month)),
                                        std::chrono::day(static_cast<unsigned>(*day))};
  if (!ymd.ok()) return std::nullopt;
  return sys_days(ymd);
}

std::optional<Clock> clock(Front& front) {
  const auto hour = front.number(2);
  if (!hour || *hour > 23 || !front.take(":")) return std::nullopt;
  const auto minute = front.number(2);
  if (!minute || *minute > 59 || !front.take(":")) return std::nullopt;
  const auto second = front.number(2);
  if (!second || *second > 59) return std::nullopt;
  return Clock{*hour, *minute, *second};
}

// Of a fraction's digits, the first three as milliseconds.
int thousandths(std::string_view digits) {
  int value = 0;
  for (std::size_t i = 0; i < 3; ++i)
    value = value * 10 + (i < digits.size() ? digits[i] - '0' : 0);
  return value;
}

// Minutes by which the written time is ahead of UTC.
std::optional<int> offset(Front& front) {
  if (front.take("Zz")) return 0;
  if (!front.take("+-")) return std::nullopt;
  const int sign = front.last() == '-' ? -1 : 1;
  const auto hours = front.number(2);
  if (!hours || *hours > 23 || !front.take(":")) return std::nullopt;
  const auto minutes = front.number(2);
  if (!minutes || *minutes > 59) return std::nullopt;
  return sign * (*hours * 60 + *minutes);
}

}  // namespace

std::string print(Moment moment) {
  const sys_time<milliseconds> time{milliseconds(moment.milliseconds)};
  const sys_days day = floor<days>(time);
  const std::chrono::year_month_day ymd(day);
  const std::chrono::hh_mm_ss clock(time - day);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.{:03}Z", static_cast<int>(ymd.year()),
                     static_cast<unsigned>(ymd.month()), static_cast<unsigned>(ymd.day()),
                     clock.hours().count(), clock.minutes().count(), clock.seconds().count(),
                     clock.subseconds().count());
}

std::string how_long(units::Duration time) {
  if (time < units::Duration::minutes(1.0)) return fmt::format("{:.0f} s", time.seconds());
  if (time < units::Duration::minutes(90.0)) return fmt::format("{:.0f} min", time.minutes());
  if (time < units::Duration::hours(36.0)) return fmt::format("{:.1f} h", time.hours());
  return fmt::format("{:.1f} days", time.hours() / 24.0);
}

std::optional<Moment> read_moment(std::string_view text) {
  Front front(text);
  const auto day = date(front);
  if (!day || !front.take("Tt")) return std::nullopt;
  const auto time = clock(front);
  if (!time) return std::nullopt;
  int milli = 0;
  if (front.take(".")) {
    const std::string_view fraction = front.digits();
    if (fraction.empty()) return std::nullopt;
    milli = thousandths(fraction);
  }
  const auto ahead = offset(front);
  if (!ahead || !front.empty()) return std::nullopt;
  const sys_time<milliseconds> found = *day + std::chrono::hours(time->hour) +
                                       std::chrono::minutes(time->minute - *ahead) +
                                       std::chrono::seconds(time->second) + milliseconds(milli);
  const Moment moment{found.time_since_epoch().count()};
  if (moment < first_moment || moment > last_moment) return std::nullopt;
  return moment;
}

}  // namespace lynearm::journal
