#include "serve/reception.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <utility>

#include "serve/problem.hpp"
#include "serve/target.hpp"

namespace lynearm::serve {

namespace {

Admission refused(Reply reply) { return {nullptr, std::move(reply)}; }

Reply stranger() {
  return problem(401, "not-paired", "This device is not paired with the house",
                 "Show the pairing code on the laptop and scan it.");
}

Reply laptop_only() {
  return problem(403, "laptop-only", "Only the laptop of the house may do this");
}

/// "application/json; charset=utf-8" is of the type "application/json".
bool is_of_type(std::string_view said, std::string_view wanted) {
  said = said.substr(0, said.find(';'));
  while (said.ends_with(' ')) said.remove_suffix(1);
  return std::equal(said.begin(), said.end(), wanted.begin(), wanted.end(), [](char a, char b) {
    return a == b || (a >= 'A' && a <= 'Z' && a - 'A' + 'a' == b);
  });
}

}  // namespace

Reception::Reception(const Router& router, Guard guard, const Access& access,
                     const Limits& limits, Log& log)
    : router_(&router),
      guard_(std::move(guard)),
      access_(&access),
      log_(&log),
      known_(limits.requests_a_second, limits.burst),
      strangers_(limits.strange_requests_a_second, limits.strange_burst) {}

Admission Reception::admit(Request& request, std::string_view target,
                           std::optional<std::uint64_t> length, Meter::Time now) {
  const bool maybe_known = access_->may_be_known(request);
  // A made-up token must not buy the faster rate twice over: both meters count by address.
  if (!(maybe_known ? known_ : strangers_).take(request.peer.address, now)) {
    Reply reply = problem(429, "too-fast", "Too many requests", "Wait a second and go on.");
    reply.headers.emplace_back("Retry-After", "1");
    return refused(std::move(reply));
  }
  const auto read = read_target(target);
  if (!read) return refused(problem(400, "bad-address", "The address is not understood"));
  request.path = read->path;
  request.query = read->query;
  if (auto refusal = guard_.refusal(request, target)) return refused(std::move(*refusal));

  Match match = router_->find(request.method, *read);
  if (match.route == nullptr) {
    if (match.allowed.empty()) {
      return refused(problem(404, "not-found", "There is nothing at this address"));
    }
    Reply reply = problem(405, "wrong-method", "This address does not answer this method",
                          "It answers " + match.allowed + ".");
    reply.headers.emplace_back("Allow", match.allowed);
    return refused(std::move(reply));
  }
  const Terms& terms = match.route->terms;
  if (terms.door != Door::anyone && !maybe_known) return refused(stranger());
  if (length && *length > terms.greatest_body) {
    return refused(problem(413, "too-long", "The body is too long",
                           fmt::format("At most {} bytes here.", terms.greatest_body)));
  }
  const bool carries = request.method == "POST" || request.method == "PUT" ||
                       request.method == "PATCH" || length.value_or(0) > 0;
  if (carries && request.method != "GET" && !terms.content_type.empty() &&
      !is_of_type(request.header("content-type").value_or(""), terms.content_type)) {
    return refused(problem(415, "wrong-type", "The body is of another kind than asked for",
                           "Content-Type is " + terms.content_type + " here."));
  }
  request.parameters = std::move(match.parameters);
  return {match.route, std::nullopt};
}

Reply Reception::answer(Request& request, const Route& route) const {
  try {
    request.who = access_->who(request);
    if (route.terms.door != Door::anyone && !request.who) return stranger();
    if (route.terms.door == Door::laptop && !request.who->laptop) return laptop_only();
    return route.handler(request);
  } catch (...) {
    Told fault = told(std::current_exception());
    if (!fault.id.empty()) {
      log_->tell(Level::error, fmt::format("fault {}: {} {}: {}", fault.id, request.method,
                                           request.path, fault.reason));
    }
    return std::move(fault.reply);
  }
}

}  // namespace lynearm::serve
