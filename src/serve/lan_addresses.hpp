// Where a phone may reach this machine.
#pragma once

#include <string>
#include <vector>

namespace lynearm::serve {

/// The machine's own IPv4 addresses on private nets, as text, in the system's order. Asked anew
/// at every call: a laptop moves.
[[nodiscard]] std::vector<std::string> lan_addresses();

}  // namespace lynearm::serve
