// A ferment as it is followed, for the page: the curve with its band, when it is dry and
// rested, whether it has stuck and what to check. The shape is that of web/api/openapi.yaml.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ferment/follow.hpp"
#include "journal/state.hpp"

namespace lynearm::wire {

struct FermentForecast {
  journal::Told pitched;
  std::vector<journal::Id> readings;  ///< entries of what was followed, in its order
  ferment::Followed followed;
  ferment::Ending planned_ending = ferment::Ending::dry;
  std::optional<units::Duration> planned_dry;  ///< after the pitch, by the plan
  units::Duration rest;                        ///< on the yeast, once dry
  std::string yeast;                           ///< its name in the table
  units::SpecificGravity original;             ///< as pitched
  units::Mass pitched_yeast;
  units::Volume volume;  ///< at 20 °C, as pitched
  units::Temperature room;
};

/// The text under /batches/{batch}/ferment of the server.
[[nodiscard]] std::string ferment_forecast_json(const FermentForecast& ferment);

/// The moment so long after another.
[[nodiscard]] journal::Moment later(journal::Moment from, units::Duration by);

}  // namespace lynearm::wire
