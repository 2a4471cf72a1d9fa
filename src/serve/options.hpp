// How a server is opened. What the command line asks for is here; the rest has good defaults.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "serve/limits.hpp"
#include "serve/log.hpp"

namespace lynearm::serve {

/// PEM files.
struct TlsFiles {
  std::string certificate;  ///< the house's first, then those that vouch for it
  std::string key;
};

struct Options {
  bool lan =
      false;  ///< open to phones: every request but the page's own files needs a paired device
  /// Empty: 127.0.0.1, or with `lan` every address, of IPv4 and, where there is it, of IPv6.
  std::string address;
  std::uint16_t port = 8420;       ///< 0: any that is free; Server::port tells which
  std::vector<std::string> names;  ///< host names the house answers to, besides its addresses
  std::optional<TlsFiles> tls;
  Limits limits;
  LogOptions log;
  std::size_t quick_threads = 4;
  std::size_t slow_threads = 2;
  bool on_signals = true;  ///< SIGINT and SIGTERM stop the server
};

}  // namespace lynearm::serve
