// When a batch's next step is due: the plan's steps, counted from what truly happened.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>

#include "journal/state.hpp"
#include "station/planned.hpp"
#include "wire/next_step.hpp"

namespace lynearm::station {

/// Where in the plan a stage's steps lie; nowhere without a plan. A run of the still begins
/// with its charge.
class StepsAhead {
 public:
  /// made       null where there is no plan, or none computed yet
  explicit StepsAhead(const PlanMade* made) : made_(made) {}

  /// Of the first step of the stage whose name begins so.
  [[nodiscard]] std::optional<units::Duration> begins(std::string_view stage,
                                                      std::string_view what = "") const;
  /// Of the last of them that hands must wait for.
  [[nodiscard]] std::optional<units::Duration> ends(std::string_view stage,
                                                    std::string_view what = "") const;

 private:
  const PlanMade* made_;
};

/// `from` in the plan happened at `at`: when does `to` come?
[[nodiscard]] std::optional<journal::Moment> moved(const std::optional<units::Duration>& from,
                                                   const std::optional<units::Duration>& to,
                                                   journal::Moment at);

/// The same for what waits for hands alone: it is due as soon as they are free. A pause so long
/// is the plan's night, which is not the one that is to come: where in the day it is, only the
/// maker knows.
[[nodiscard]] std::optional<journal::Moment> hands_free(
    const std::optional<units::Duration>& from, const std::optional<units::Duration>& to,
    journal::Moment at);

/// Leaves a step without a moment as it is.
void set_due(wire::NextStep& next, std::optional<journal::Moment> due,
             units::Duration late_after, std::string by);

inline constexpr const char* by_plan = "the plan's steps, counted from what was done";

}  // namespace lynearm::station
