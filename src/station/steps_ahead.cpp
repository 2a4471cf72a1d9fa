#include "station/steps_ahead.hpp"

#include <utility>

namespace lynearm::station {
namespace {

using units::Duration;

bool is_of(const plan::Step& step, std::string_view stage, std::string_view what) {
  return step.stage == stage && std::string_view(step.what).starts_with(what);
}

}  // namespace

std::optional<Duration> StepsAhead::begins(std::string_view stage,
                                           std::string_view what) const {
  if (made_ == nullptr) return std::nullopt;
  for (const plan::Step& step : made_->plan.timeline.steps) {
    if (is_of(step, stage, what)) return step.start;
  }
  return std::nullopt;
}

std::optional<Duration> StepsAhead::ends(std::string_view stage, std::string_view what) const {
  std::optional<Duration> end;
  if (made_ == nullptr) return end;
  for (const plan::Step& step : made_->plan.timeline.steps) {
    if (is_of(step, stage, what) && !step.beside) {
      end = std::max(end.value_or(Duration{}), step.end());
    }
  }
  return end;
}

std::optional<journal::Moment> moved(const std::optional<Duration>& from,
                                     const std::optional<Duration>& to, journal::Moment at) {
  if (!from || !to) return std::nullopt;
  return wire::later(at, std::max(Duration{}, *to - *from));
}

std::optional<journal::Moment> hands_free(const std::optional<Duration>& from,
                                          const std::optional<Duration>& to,
                                          journal::Moment at) {
  constexpr Duration night = Duration::hours(5.0);
  if (from && to && *to - *from > night) return at;
  return moved(from, to, at);
}

void set_due(wire::NextStep& next, std::optional<journal::Moment> due, Duration late_after,
             std::string by) {
  if (!due) return;
  next.due = due;
  next.late_after = wire::later(*due, late_after);
  next.due_by = std::move(by);
}

}  // namespace lynearm::station
