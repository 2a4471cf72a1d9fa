// What lies on wood, as it is forecast: extract, what went to the wood and the air, and the
// strength, by now and to the end of the plan's time; for the page. The shape is that of
// web/api/openapi.yaml. The work is done in station/wooded.hpp.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "journal/state.hpp"
#include "plan/finding.hpp"
#include "units/quantity.hpp"

namespace lynearm::wire {

/// A figure with the ends of its 80 % band.
template <class Q>
struct Likely {
  Q low, median, high;
};

/// A lot on wood at one time.
struct WoodPoint {
  units::Duration at;            ///< since it was filled
  Likely<units::Share> extract;  ///< of a new charred 200 L cask's eight years
  /// Years such a cask takes for as much extract; nothing past what it gives in a century.
  std::optional<units::Duration> like_cask_years;
  Likely<units::Volume> evaporated;  ///< at 20 °C
  Likely<units::Volume> volume;      ///< at 20 °C; of `now` and `end`, in the vessel
  Likely<units::VolumeStrength> strength;
};

struct WoodForecast {
  journal::LotName lot;
  journal::Moment filled;
  /// Why there is no forecast; empty when there is one, and then all below counts.
  std::string untold;

  std::string in, species, toast;  ///< the names in the tables
  int staves = 0;                  ///< zero in a cask
  std::optional<units::Volume> cask;
  bool used = false;   ///< the cask was filled before
  units::Volume laid;  ///< at 20 °C
  units::VolumeStrength strength;
  units::Temperature resting;
  units::Share humidity;  ///< asked of a cask only
  units::AreaPerVolume surface;
  double times_a_200L_cask = 1.0;
  units::Volume soaked;                          ///< that the wood drinks, at 20 °C
  std::optional<units::Duration> planned;        ///< on wood, by the plan
  std::optional<Likely<units::Duration>> ready;  ///< as staves are usually called ready
  std::vector<WoodPoint> course;  ///< from the filling to the later of now and plan
  WoodPoint now;
  std::optional<WoodPoint> end;
  std::vector<plan::Finding> findings;
};

/// The text under /batches/{batch}/wood of the server.
[[nodiscard]] std::string wood_forecasts_json(const std::vector<WoodForecast>& lots);

}  // namespace lynearm::wire
