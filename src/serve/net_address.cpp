#include "serve/net_address.hpp"

#include "serve/lan_addresses.hpp"

namespace lynearm::serve {

namespace ip = boost::asio::ip;

ip::address plain(const ip::address& address) {
  if (address.is_v6() && address.to_v6().is_v4_mapped()) {
    return ip::make_address_v4(ip::v4_mapped, address.to_v6());
  }
  return address;
}

bool is_unique_local(const ip::address_v6::bytes_type& address) {
  return (address[0] & 0xFEU) == 0xFCU;
}

bool is_near(const ip::address& address) {
  const ip::address real = plain(address);
  if (real.is_loopback()) return true;
  if (real.is_v6()) {
    return real.to_v6().is_link_local() || is_unique_local(real.to_v6().to_bytes()) ||
           is_on_a_net_of_ours(real.to_v6());
  }
  const unsigned long number = real.to_v4().to_uint();
  return (number >> 24U) == 10 || (number >> 20U) == 0xAC1 || (number >> 16U) == 0xC0A8 ||
         (number >> 22U) == 0x191 || (number >> 16U) == 0xA9FE;
}

}  // namespace lynearm::serve
