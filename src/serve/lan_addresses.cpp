#include "serve/lan_addresses.hpp"

#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>

#include <boost/asio/ip/address_v4.hpp>
#include <cstring>
#include <iterator>
#include <memory>

#include "serve/net_address.hpp"

namespace lynearm::serve {

namespace ip = boost::asio::ip;

namespace {

using Interfaces = std::unique_ptr<ifaddrs, decltype(&freeifaddrs)>;

Interfaces interfaces() {
  ifaddrs* list = nullptr;
  return {getifaddrs(&list) == 0 ? list : nullptr, &freeifaddrs};
}

/// Up, of the given family, and not the machine talking to itself.
bool serves(const ifaddrs& one, int family) {
  return one.ifa_addr != nullptr && one.ifa_addr->sa_family == family &&
         (one.ifa_flags & IFF_UP) != 0 && (one.ifa_flags & IFF_LOOPBACK) == 0;
}

ip::address_v4 v4_of(const sockaddr* socket_address) {
  sockaddr_in read{};
  std::memcpy(&read, socket_address, sizeof read);
  return ip::address_v4{ntohl(read.sin_addr.s_addr)};
}

ip::address_v6::bytes_type v6_of(const sockaddr* socket_address) {
  sockaddr_in6 read{};
  std::memcpy(&read, socket_address, sizeof read);
  ip::address_v6::bytes_type bytes{};
  std::memcpy(bytes.data(), &read.sin6_addr, bytes.size());
  return bytes;
}

}  // namespace

std::vector<std::string> lan_addresses() {
  const Interfaces list = interfaces();
  std::vector<std::string> found;
  std::vector<std::string> sixes;
  for (const ifaddrs* one = list.get(); one != nullptr; one = one->ifa_next) {
    if (serves(*one, AF_INET)) {
      const ip::address_v4 address = v4_of(one->ifa_addr);
      if (is_near(address)) found.push_back(address.to_string());
    } else if (serves(*one, AF_INET6)) {
      const auto bytes = v6_of(one->ifa_addr);
      if (is_unique_local(bytes)) sixes.push_back(ip::address_v6{bytes}.to_string());
    }
  }
  found.insert(found.end(), std::make_move_iterator(sixes.begin()),
               std::make_move_iterator(sixes.end()));
  return found;
}

bool is_on_a_net_of_ours(const ip::address_v6& address) {
  const auto asked = address.to_bytes();
  const Interfaces list = interfaces();
  for (const ifaddrs* one = list.get(); one != nullptr; one = one->ifa_next) {
    if (!serves(*one, AF_INET6) || one->ifa_netmask == nullptr) continue;
    const auto own = v6_of(one->ifa_addr);
    const auto mask = v6_of(one->ifa_netmask);
    bool same = mask[0] != 0;  // a net of everybody is none
    for (std::size_t i = 0; i < own.size(); ++i) {
      same = same && ((own.at(i) ^ asked.at(i)) & mask.at(i)) == 0;
    }
    if (same) return true;
  }
  return false;
}

}  // namespace lynearm::serve
