#include "serve/router.hpp"

#include <algorithm>

#include "base/error.hpp"

namespace lynearm::serve {

namespace {

bool is_parameter(std::string_view part) {
  return part.size() > 2 && part.front() == '{' && part.back() == '}';
}

bool fits(const std::vector<std::string>& pattern, const std::vector<std::string>& segments) {
  return std::equal(pattern.begin(), pattern.end(), segments.begin(), segments.end(),
                    [](const std::string& part, const std::string& segment) {
                      return is_parameter(part) || part == segment;
                    });
}

/// "batches/{batch}" comes after "batches/new": literal segments first, from the left.
bool is_narrower(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(),
                                      [](const std::string& x, const std::string& y) {
                                        return !is_parameter(x) && is_parameter(y);
                                      });
}

void add_method(std::string& list, std::string_view method) {
  if (!list.empty()) list += ", ";
  list += method;
  if (method == "GET") list += ", HEAD";
}

}  // namespace

Router& Router::on(std::string method, std::string_view pattern, Handler handler, Terms terms) {
  const auto read = read_target(pattern);
  base::ensure(read && read->query.empty(), "a pattern is a path");
  base::ensure(handler != nullptr, "a route has a handler");
  for (const auto& route : routes_) {
    base::ensure(route->method != method || route->pattern != read->segments,
                 "a route is given once");
  }
  routes_.push_back(std::make_unique<Route>(
      Route{std::move(method), read->segments, std::move(handler), std::move(terms)}));
  return *this;
}

Router& Router::otherwise(Handler handler) {
  Terms terms;
  terms.door = Door::anyone;
  otherwise_ = std::make_unique<Route>(Route{"GET", {}, std::move(handler), terms});
  return *this;
}

Match Router::find(std::string_view method, const Target& target) const {
  Match match;
  for (const auto& route : routes_) {
    if (!fits(route->pattern, target.segments)) continue;
    if (route->method != method) {
      if (match.allowed.find(route->method) == std::string::npos) {
        add_method(match.allowed, route->method);
      }
    } else if (match.route == nullptr || is_narrower(route->pattern, match.route->pattern)) {
      match.route = route.get();
    }
  }
  if (match.route != nullptr) {
    for (std::size_t i = 0; i < target.segments.size(); ++i) {
      const std::string& part = match.route->pattern[i];
      if (is_parameter(part)) {
        match.parameters.emplace_back(part.substr(1, part.size() - 2), target.segments[i]);
      }
    }
    return match;
  }
  const bool api = !target.segments.empty() && target.segments.front() == "api";
  if (match.allowed.empty() && otherwise_ && !api) {
    if (method == "GET") {
      match.route = otherwise_.get();
    } else {
      match.allowed = "GET, HEAD";
    }
  }
  return match;
}

}  // namespace lynearm::serve
