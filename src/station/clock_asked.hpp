// The clock by which a record is asked to tell its times: minutes east of UTC, and where it was
// put on or back. The house knows no zones; the page that asks knows its own.
#pragma once

#include <vector>

#include "serve/request.hpp"
#include "sheet/record_sheet.hpp"

namespace lynearm::station {

struct ClockAsked {
  int minutes_east = 0;
  std::vector<sheet::ClockTurn> turns;
};

/// Of "minutes_east" (-840 to 840, else nought) and "clock_turns": up to 64 of
/// "60@2026-10-25T01:00:00Z" with commas between, in order of time.
/// throws     InputError ("minutes_east", "clock_turns")
[[nodiscard]] ClockAsked clock_asked(const serve::Request& request);

}  // namespace lynearm::station
