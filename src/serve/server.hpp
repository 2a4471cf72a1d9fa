// The server: listens, keeps the connections, stops in order. The program fills a router with
// handlers, makes a server and runs it:
//
//   serve::Events events;
//   serve::DevicesInMemory devices;
//   serve::Router router;
//   router.on("POST", "/api/v1/batches/{batch}/entries", append);
//   serve::Server server{options, std::move(router), events, devices};
//   fmt::print("{}\n", server.address());
//   server.run();
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "serve/devices.hpp"
#include "serve/events.hpp"
#include "serve/options.hpp"
#include "serve/router.hpp"

namespace lynearm::serve {

class Server {
 public:
  /// Listens from here on; answers once `run` is called. Adds GET /healthz to the routes.
  ///
  /// events, devices   live longer than the server
  /// throws     InputError for an address or port that cannot be had, an address other than
  ///            loopback without `lan`, TLS files that cannot be used, a log that cannot be
  ///            written
  Server(Options options, Router router, Events& events, Devices& devices);
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  [[nodiscard]] std::uint16_t port() const;
  /// "http://127.0.0.1:8420"; the loopback name even when every address is listened to.
  [[nodiscard]] std::string address() const;

  /// Returns when it was stopped, by `stop` or a signal: no connection is taken any more,
  /// running requests were finished, streams closed, each within Limits::grace. Once only.
  void run();
  /// From any thread, also before `run`.
  void stop();

  [[nodiscard]] Log& log();

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace lynearm::serve
