#include "serve/lan_addresses.hpp"

#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>

#include <cstring>
#include <memory>

#include "serve/net_address.hpp"

namespace lynearm::serve {

namespace ip = boost::asio::ip;

std::vector<std::string> lan_addresses() {
  ifaddrs* list = nullptr;
  if (getifaddrs(&list) != 0) return {};
  const std::unique_ptr<ifaddrs, decltype(&freeifaddrs)> held{list, &freeifaddrs};
  std::vector<std::string> found;
  for (const ifaddrs* one = list; one != nullptr; one = one->ifa_next) {
    if (one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET) continue;
    if ((one->ifa_flags & IFF_UP) == 0 || (one->ifa_flags & IFF_LOOPBACK) != 0) continue;
    sockaddr_in socket_address{};
    std::memcpy(&socket_address, one->ifa_addr, sizeof socket_address);
    const ip::address_v4 address{ntohl(socket_address.sin_addr.s_addr)};
    if (is_near(address)) found.push_back(address.to_string());
  }
  return found;
}

}  // namespace lynearm::serve
