// A run that was followed, as a picture: what was expected at the spout and in the head over
// time, with its 80 % band, what was read, and where the decisions lie. A reading is a ring;
// one that is not believed is a cross, said in the caption, so that nothing hangs on colour.
#pragma once

#include <string>
#include <vector>

#include "sheet/letter.hpp"
#include "still/follow.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {

/// forecast   with curves of two points at least
/// system     `both` draws in metric
[[nodiscard]] Drawing follow_picture(const still::Follower& follower,
                                     const still::Forecast& forecast, units::System system);

/// The picture on a page of its own, with the decisions, the constants and the readings that
/// are not believed: HTML that needs nothing else.
[[nodiscard]] std::string follow_page(const still::Follower& follower,
                                      const still::Forecast& forecast, std::string_view title,
                                      units::System system);

}  // namespace lynearm::sheet
