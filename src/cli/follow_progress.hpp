// How far the possible stills are computed, told while it takes long. Ten thousand and more are
// allowed, since a replay may take its time; so they are told instead of forbidden.
#pragma once

#include <functional>
#include <string>

#include "cli/threads.hpp"

namespace lynearm::cli {

/// Tells on standard error "Possible stills: 8400 of 20000", when that is a terminal and the
/// work at hand has taken longer than a second; wiped out at its end.
[[nodiscard]] Progress stills_on_terminal();

/// The same to a place of one's own, without asking whether it is a terminal.
/// put        takes a line without its end, that goes over the one before; empty wipes it
/// now_s      a clock
[[nodiscard]] Progress stills_told(std::function<void(const std::string&)> put,
                                   std::function<double()> now_s);

}  // namespace lynearm::cli
