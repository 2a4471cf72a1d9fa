// Which handler answers which method and path. Patterns are literal segments and parameters,
// "/api/v1/batches/{batch}/entries"; at a place where both fit, the literal wins. Filled once
// before the server runs, then only read, so any thread may ask it.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "serve/reply.hpp"
#include "serve/request.hpp"
#include "serve/target.hpp"

namespace lynearm::serve {

/// Runs on a thread of its lane, several at once; throws what it likes (see reception.hpp).
using Handler = std::function<Reply(const Request&)>;

/// Whom a route answers.
enum class Door {
  anyone,  ///< a stranger too: the page itself, the health of the server, the pairing call
  paired,  ///< a device the house knows
  laptop,  ///< only the machine the house runs on
};

/// Where a handler runs. Readings are acknowledged on the quick lane and never wait behind a
/// plan.
enum class Lane { quick, slow };

/// What a route asks for.
struct Terms {
  Door door = Door::paired;
  Lane lane = Lane::quick;
  std::size_t greatest_body = std::size_t{256} * 1024;
  /// Media type a body must have; "" takes any. A form of another site cannot send JSON
  /// unasked.
  std::string content_type = "application/json";
};

struct Route {
  std::string method;
  std::vector<std::string> pattern;
  Handler handler;
  Terms terms;
};

/// A route found; or none, and then the methods that the path does know (empty: unknown path).
struct Match {
  const Route* route = nullptr;
  Pairs parameters;
  std::string allowed;  ///< "GET, HEAD, POST"
};

class Router {
 public:
  /// Adds a route. HEAD is answered wherever GET is.
  ///
  /// throws     BrokenInvariant for a pattern without leading "/", or a route that is already
  /// there
  Router& on(std::string method, std::string_view pattern, Handler handler, Terms terms = {});

  /// What answers a GET of an unknown path outside /api/: the page.
  Router& otherwise(Handler handler);

  /// method     "GET" for HEAD as well
  [[nodiscard]] Match find(std::string_view method, const Target& target) const;

 private:
  std::vector<std::unique_ptr<Route>> routes_;
  std::unique_ptr<Route> otherwise_;
};

}  // namespace lynearm::serve
