// The fire under a followed run, from what was read of it: powers, "stopped", "resumed", late
// or in order. What is planned stands until the log says otherwise: the turning down at the
// boil until a power is read about then, steps by volume until any change is read. Leaves out a
// power that was mistyped.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "still/reading.hpp"
#include "still/run.hpp"

namespace lynearm::still {

/// What was logged of the fire and cannot be as it stands.
enum class FireOddity {
  stopped_again,         ///< heat was off already
  resumed_while_heated,  ///< heat was not off
  power_while_stopped,   ///< kept for when the run is resumed
};
struct FireRemark {
  std::size_t reading = 0;  ///< in the order of arrival, from 0
  FireOddity oddity = FireOddity::stopped_again;
  units::Duration since;  ///< stopped_again, power_while_stopped: heat off since then
  friend bool operator==(const FireRemark&, const FireRemark&) = default;
};
[[nodiscard]] std::string sentence(const FireRemark& remark);

struct Fire {
  std::vector<PowerStep> steps;  ///< by time, the first from heat on; empty: as planned
  bool turns_down = true;        ///< at the boil, as planned
  std::optional<units::Duration> stopped_at;  ///< and not resumed
  std::vector<FireRemark> remarks;            ///< in order of time
};
/// Whether they burn alike.
[[nodiscard]] bool operator==(const Fire& a, const Fire& b);

/// The fire that readings tell.
///
/// plan       with the powers planned
/// boiling    when the pot is expected to boil: a first power until 20 min after it is the
///            turning down itself, a later one leaves that where it was planned
/// latest     time of the latest reading of any kind. A stopped run is taken to be resumed a
///            multiple of 12 h after it was stopped, beyond that time
/// A second "stopped", a "resumed" without one and a power while the heat is off change nothing
/// now; each is remarked.
///
/// returns    powers within 1 % of the one that burns change nothing
[[nodiscard]] Fire read_fire(const std::vector<Reading>& readings, const RunSetting& plan,
                             units::Duration boiling, units::Duration latest);

/// The setting driven by that fire, at a tolerance that is enough for a filter.
[[nodiscard]] RunSetting with_fire(const RunSetting& setting, const Fire& fire);

}  // namespace lynearm::still
