// What a handler gives back: plain values. Headers of safety and caching are put on later, at
// one place (guard.hpp); a handler sets Cache-Control only where something may be kept.
#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "serve/request.hpp"

namespace lynearm::serve {

class Subscription;

struct Reply {
  int status = 200;
  std::string content_type = "application/json";
  std::string body;
  Pairs headers;
  /// Not null: the reply is a stream of events, and stays open.
  std::shared_ptr<Subscription> stream;
};

/// 200 with `json`.
[[nodiscard]] inline Reply json(std::string json_text) {
  Reply reply;
  reply.body = std::move(json_text);
  return reply;
}

/// 204: done, nothing to tell.
[[nodiscard]] inline Reply nothing() { return Reply{204, "", "", {}, nullptr}; }

}  // namespace lynearm::serve
