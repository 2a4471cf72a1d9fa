// Addresses: is a peer near enough.
#pragma once

#include <boost/asio/ip/address.hpp>

namespace lynearm::serve {

/// An IPv4 address mapped into IPv6 as IPv4; any other unchanged.
[[nodiscard]] boost::asio::ip::address plain(const boost::asio::ip::address& address);

/// Of IPv6, for one site only (RFC 4193).
[[nodiscard]] bool is_unique_local(const boost::asio::ip::address_v6::bytes_type& address);

/// Of this machine or a private net (RFC 1918, RFC 6598, link-local, RFC 4193), or by IPv6 of a
/// net that this machine itself stands in: a phone beside it may come with an address of the
/// whole world. An opened house is for the LAN, and answers nobody from further off, whatever a
/// router forwards.
[[nodiscard]] bool is_near(const boost::asio::ip::address& address);

}  // namespace lynearm::serve
