// From a request to its reply, without a socket in sight: limits, guard, route, access,
// handler, and what a throw becomes. `admit` is quick and runs where the sockets are, before
// the body is read; `answer` runs on the route's lane.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "serve/access.hpp"
#include "serve/guard.hpp"
#include "serve/limits.hpp"
#include "serve/log.hpp"
#include "serve/reply.hpp"
#include "serve/router.hpp"

namespace lynearm::serve {

/// A route that may be taken, or the refusal.
struct Admission {
  const Route* route = nullptr;
  std::optional<Reply> refusal;
};

class Reception {
 public:
  /// router, access and log live longer than this
  Reception(const Router& router, Guard guard, const Access& access, const Limits& limits,
            Log& log);

  /// Judges the head of a request and fills in path, query and parameters.
  ///
  /// target     as in the request line
  /// length     of the body as announced; nothing: not said
  [[nodiscard]] Admission admit(Request& request, std::string_view target,
                                std::optional<std::uint64_t> length, Meter::Time now);

  /// Runs the handler, when the door is open; throws nothing.
  [[nodiscard]] Reply answer(Request& request, const Route& route) const;

  /// Headers that every reply has.
  void dress(Reply& reply) const { guard_.dress(reply); }

 private:
  const Router* router_;
  Guard guard_;
  const Access* access_;
  Log* log_;
  Meter known_;
  Meter strangers_;
};

}  // namespace lynearm::serve
