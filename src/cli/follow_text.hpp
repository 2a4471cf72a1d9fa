// A replayed run as people read it: a row for each reading, then what comes next and what the
// run taught.
#pragma once

#include <string>
#include <vector>

#include "cli/look.hpp"
#include "still/follow.hpp"

namespace lynearm::cli {

/// One reading of a replay and what it did.
struct Replayed {
  still::Reading reading;
  still::Update update;
  still::Forecast forecast;
};

/// replayed   at least one
[[nodiscard]] std::string follow_text(const std::vector<Replayed>& replayed, const Look& look);

/// Models, assumptions, what is left out.
[[nodiscard]] std::string follow_why(const still::Follower& follower);

}  // namespace lynearm::cli
