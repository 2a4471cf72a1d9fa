// What a batch needs next, and when: the furthest thing that was recorded decides what, an
// order of the trade; the plan's steps, counted from what truly happened, decide when; a
// ferment's readings move the day of racking. It is no clock of the house: nights are those of
// the plan.
#pragma once

#include "journal/state.hpp"
#include "station/planned.hpp"
#include "wire/ferment_forecast.hpp"
#include "wire/next_step.hpp"

namespace lynearm::station {

/// A ferment is read once a day at least: common practice, no source.
inline constexpr units::Duration between_gravities = units::Duration::days(1.0);
/// Overdue so long after it was due: our choice. A wash, jars under a cloth and hearts in glass
/// bear a day; wood bears three; mash and wort bear two hours.
inline constexpr units::Duration late_after_hands = units::Duration::days(1.0);
inline constexpr units::Duration late_after_wood = units::Duration::days(3.0);
inline constexpr units::Duration late_after_mash = units::Duration::hours(2.0);

/// made       the batch's plan; null, and so no time, where it has none or none is computed yet
/// ferment    its forecast; null likewise, and so the plan's days count from the pitch
[[nodiscard]] wire::NextStep next_step(const journal::HouseState& house,
                                       const journal::BatchState& batch, const PlanMade* made,
                                       const wire::FermentForecast* ferment);

}  // namespace lynearm::station
