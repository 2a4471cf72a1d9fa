// The fire of a logged run: from the powers that were read and the notes "stopped" and
// "resumed" to the steps that a computed run is driven by.
//
// Powers that differ by no more than the meter's flicker are one step of their mean, so that a
// log of every minute does not become a run of a hundred pieces. A power that stands alone
// between two that agree is taken as mistyped. Leaves out a change between two entries: the
// power read holds from its time on.
#pragma once

#include <vector>

#include "still/reading.hpp"
#include "still/run.hpp"

namespace lynearm::still {

struct LoggedPower {
  std::vector<PowerStep> steps;      ///< by time, from the start on; empty: none was read
  std::vector<Reading> passed_over;  ///< whose power was not believed
  /// When the heat was turned off for good; nothing: it was on to the last reading.
  std::optional<units::Duration> heat_off;
};

/// By how much the meter flickers; our estimate.
inline constexpr double power_flicker = 0.04;

/// record    in order of time (by_time)
/// stated    what the boiler draws where no power was read
/// to_the_boil  and before it boils, where that is another; without it `stated`. As when a run
///           is followed: a power first read later than a minute after the start, and nearer to
///           `stated` than to this, is one that was turned down to, with this one before it;
///           otherwise what was read first was drawn from the start
[[nodiscard]] LoggedPower logged_power(const Record& record, units::Power stated,
                                       std::optional<units::Power> to_the_boil = {});

}  // namespace lynearm::still
