#include "plan/timeline.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace lynearm::plan {
namespace {

units::Duration sum_of(const Timeline& timeline, Attention attention) {
  units::Duration sum;
  for (const Step& step : timeline.steps) {
    if (step.attention == attention) sum += step.length;
  }
  return sum;
}

}  // namespace

units::Duration Timeline::hands_on() const { return sum_of(*this, Attention::hands_on); }

units::Duration Timeline::watching() const { return sum_of(*this, Attention::watch); }

units::Duration Timeline::whole() const {
  if (steps.empty()) return {};
  units::Duration first = steps.front().start;
  units::Duration last = steps.front().end();
  for (const Step& step : steps) {
    first = std::min(first, step.start);
    last = std::max(last, step.end());
  }
  return last - first;
}

std::string clock(units::Duration since_first_midnight) {
  const auto minutes = std::llround(since_first_midnight.minutes());
  const auto day = minutes / 1440;
  const auto in_day = minutes - day * 1440;
  return fmt::format("day {} {:02}:{:02}", day + 1, in_day / 60, in_day % 60);
}

}  // namespace lynearm::plan
