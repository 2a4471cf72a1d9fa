// Feints over generations as JSON: one object, one line.
#pragma once

#include <string>

#include "still/feints.hpp"

namespace lynearm::wire {

/// "generations", a row for each run; "unbled", where it leads without bleeding; "bleed", when
/// to bleed feints off and how much of them. Volumes at 20 °C, strengths % by volume, oils in
/// g/L of pure alcohol.
[[nodiscard]] std::string feints_json(const still::ToldFeints& told);

}  // namespace lynearm::wire
