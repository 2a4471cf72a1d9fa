// What all connections share, on the one thread of the sockets.
#pragma once

#include <cstddef>
#include <map>
#include <set>
#include <string>

#include "serve/limits.hpp"
#include "serve/log.hpp"
#include "serve/reception.hpp"
#include "serve/workers.hpp"

namespace lynearm::serve {

class Connection;

struct Hall {
  Limits limits;
  Log* log = nullptr;
  Reception* reception = nullptr;
  Workers* workers = nullptr;
  std::set<Connection*> open;
  std::map<std::string, std::size_t> open_by_peer;
  bool stopping = false;

  /// There is room for one more from `address`.
  [[nodiscard]] bool has_room(const std::string& address) const {
    const auto found = open_by_peer.find(address);
    return open.size() < limits.connections &&
           (found == open_by_peer.end() || found->second < limits.connections_a_peer);
  }
};

}  // namespace lynearm::serve
