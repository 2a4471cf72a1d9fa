// The nets this machine stands in, and where a phone of them may reach it. Asked anew at every
// call: a laptop moves.
#pragma once

#include <boost/asio/ip/address_v6.hpp>
#include <string>
#include <vector>

namespace lynearm::serve {

/// The machine's own addresses on private nets, as text, in the system's order: first those of
/// IPv4, then those of IPv6 that are unique to a site (RFC 4193). Link-local ones are left out,
/// since no browser takes them in an address.
[[nodiscard]] std::vector<std::string> lan_addresses();

/// One of the machine's own addresses shares with `address` the part that names the net.
[[nodiscard]] bool is_on_a_net_of_ours(const boost::asio::ip::address_v6& address);

}  // namespace lynearm::serve
