// A request as a handler sees it: plain values, nothing of sockets. Header names are in lower
// case, path and query already decoded; the body is whole and no longer than its route allows.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "serve/device.hpp"

namespace lynearm::serve {

using Pairs = std::vector<std::pair<std::string, std::string>>;

/// The first value of `name` among `pairs`; nothing when it is not there.
[[nodiscard]] std::optional<std::string_view> value_of(const Pairs& pairs,
                                                       std::string_view name);

/// The other end of the connection.
struct Peer {
  std::string address;  ///< without port; an IPv4 address mapped into IPv6 is written as IPv4
  std::string local_address;  ///< the address of ours that it reached
  bool loopback = false;      ///< it is on this machine
  bool sealed = false;        ///< it speaks TLS
};

struct Request {
  std::string method;  ///< "GET" for HEAD as well: the connection leaves the body out
  std::string path;    ///< decoded, "/api/v1/batches"
  Pairs query;         ///< decoded, in the order given
  Pairs headers;       ///< names in lower case, in the order given
  std::string body;
  Pairs parameters;  ///< what stands for "{batch}" in the pattern of the route
  std::optional<Device>
      who;  ///< nothing: a stranger, let in only where a route is open to anyone
  Peer peer;

  [[nodiscard]] std::optional<std::string_view> header(std::string_view lower_case_name) const;
  [[nodiscard]] std::optional<std::string_view> asked(std::string_view query_name) const;
  /// throws     BrokenInvariant when the pattern of the route has no such parameter
  [[nodiscard]] const std::string& parameter(std::string_view name) const;
};

}  // namespace lynearm::serve
