// The name a request says it is for: the Host header, taken apart.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace lynearm::serve {

struct Host {
  std::string name;      ///< lower case; an IPv6 address without its brackets
  std::string port;      ///< digits; empty when not said
  bool literal = false;  ///< an address, not a name
};

/// "house.local:8420", "[::1]:8420", "192.168.1.5"; nothing for what is none of these.
[[nodiscard]] std::optional<Host> read_host(std::string_view text);

/// "localhost" or an address of the loopback net.
[[nodiscard]] bool is_loopback(const Host& host);

}  // namespace lynearm::serve
