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

/// One of the woods that a lot lies on.
struct WoodSet {
  std::string cask;            ///< its name; empty for staves
  int staves = 0;              ///< zero for a cask
  std::string species, toast;  ///< the names in the tables
  int used_times = 0;          ///< that it lay in spirit before
  units::AreaPerVolume surface;
  units::Share given;  ///< by now, to the spirit as it was laid
};
/// Wood that it lay on before.
struct WoodLeft {
  journal::OnWood on;
  units::Duration days;
  units::Share extract;  ///< with which it came off
};

struct WoodForecast {
  journal::LotName lot;
  journal::Moment filled;
  /// Why there is no forecast; empty when there is one, and then all below counts.
  std::string untold;

  std::string in;              ///< a cask's name, or "staves"
  std::vector<WoodSet> woods;  ///< one or more
  int staves = 0;              ///< of all sets
  std::optional<units::Volume> cask;
  units::Volume laid;  ///< at 20 °C
  units::VolumeStrength strength;
  units::Temperature resting;
  units::Share humidity;  ///< asked of a cask only
  units::AreaPerVolume surface;
  double times_a_200L_cask = 1.0;
  Likely<units::Share> carried;  ///< extract that it had when it was laid here
  std::vector<WoodLeft> before;
  std::string carried_untold;  ///< why some of what it had is not counted; empty when all is
  units::Volume soaked;        ///< that the wood drinks, at 20 °C
  /// On this wood, by the plan: less what it lay on other wood before.
  std::optional<units::Duration> planned;
  std::optional<Likely<units::Duration>> ready;  ///< as staves are usually called ready
  std::vector<WoodPoint> course;  ///< from the filling to the later of now and plan
  WoodPoint now;
  std::optional<WoodPoint> end;
  std::vector<plan::Finding> findings;
};

/// The text under /batches/{batch}/wood of the server.
[[nodiscard]] std::string wood_forecasts_json(const std::vector<WoodForecast>& lots);

}  // namespace lynearm::wire
