// A run as it is followed, for a page: where it stands, the curves to its end with their bands,
// the decisions ahead, and the figures that are not believed, each by the entry that told it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "journal/id.hpp"
#include "still/follow_answer.hpp"
#include "still/reading.hpp"

namespace lynearm::wire {

/// A reading that the follower does not take, and why.
struct Refused {
  journal::Id entry;
  std::string why;
};

/// What the follower of a run says, and which entry each of its readings came from.
struct RunForecast {
  journal::Id run;
  std::vector<journal::Id> readings;     ///< entries, in the order the follower took them
  std::optional<still::Reading> latest;  ///< as read; nothing before the first
  still::StillNow now;
  still::Forecast forecast;
  std::vector<still::Doubt> doubts;
  std::vector<Refused> refused;
  std::size_t crowded = 0;  ///< readings not weighed whole: their minute is well read
  std::vector<still::Learnt> constants;
  std::optional<units::VolumeStrength> charge_by_plan;  ///< where the charge was not gauged
  std::optional<units::Power> turns_down_to;  ///< at the boil, while it heats up at more
  std::vector<std::string> of_charge;  ///< what speaks against the charge, a sentence each
  units::Pressure air;                 ///< that it boils under
  bool air_read = false;               ///< on the day; else the kit's
};

/// The text under /runs/{run}/forecast of the server. Minutes count from the run's nought.
[[nodiscard]] std::string run_forecast_json(const RunForecast& run);

}  // namespace lynearm::wire
