#include "serve/server.hpp"

#include <fmt/format.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <csignal>
#include <optional>
#include <utility>

#include "base/error.hpp"
#include "serve/connection.hpp"
#include "serve/host.hpp"
#include "serve/net_address.hpp"
#include "serve/tls.hpp"

namespace lynearm::serve {

namespace asio = boost::asio;
using tcp = asio::ip::tcp;
using Error = boost::system::error_code;

namespace {

tcp::endpoint endpoint_of(const Options& options) {
  const std::string text =
      !options.address.empty() ? options.address : (options.lan ? "0.0.0.0" : "127.0.0.1");
  Error error;
  const auto address = asio::ip::make_address(text, error);
  if (error) throw base::InputError{"address", text, "an IPv4 or IPv6 address of this machine"};
  if (!options.lan && !address.is_loopback()) {
    throw base::InputError{"address", text,
                           "a loopback address, unless the house is opened "
                           "to the LAN"};
  }
  return {address, options.port};
}

Router with_health(Router router) {
  Terms terms;
  terms.door = Door::anyone;
  router.on(
      "GET", "/healthz", [](const Request&) { return json(R"({"status":"well"})"); }, terms);
  return router;
}

}  // namespace

struct Server::Inside {
  Inside(Options asked, Router filled, Events& hub, Devices& known)
      : options(std::move(asked)),
        log(options.log),
        router(with_health(std::move(filled))),
        access(options.lan, known),
        reception(router, Guard{options.names, options.tls.has_value()}, access, options.limits,
                  log),
        events(&hub) {
    hall.limits = options.limits;
    hall.log = &log;
    hall.reception = &reception;
    if (options.tls) tls.emplace(tls_context(*options.tls));
    listen();
    workers.emplace(options.quick_threads, options.slow_threads, options.limits.slow_waiting);
    hall.workers = &*workers;
  }

  void listen() {
    const tcp::endpoint endpoint = endpoint_of(options);
    Error error;
    acceptor.open(endpoint.protocol(), error);
    if (!error) acceptor.set_option(tcp::acceptor::reuse_address{true}, error);
    if (!error) acceptor.bind(endpoint, error);
    if (!error) acceptor.listen(asio::socket_base::max_listen_connections, error);
    if (error) {
      throw base::InputError{"port", std::to_string(endpoint.port()),
                             fmt::format("a port that is free at {} ({})",
                                         endpoint.address().to_string(), error.message())};
    }
    port = acceptor.local_endpoint().port();
  }

  // --- taking connections
  // ----------------------------------------------------------------------

  void accept() {
    acceptor.async_accept([this](Error error, tcp::socket socket) {
      if (hall.stopping || error == asio::error::operation_aborted) return;
      if (error) {
        // No file descriptors left, most likely: others will be closed soon.
        log.tell(Level::warning, "a connection could not be taken: " + error.message());
        pause.expires_after(std::chrono::milliseconds{50});
        pause.async_wait([this](Error cancelled) {
          if (!cancelled) accept();
        });
        return;
      }
      take(std::move(socket));
      accept();
    });
  }

  void take(tcp::socket socket) {
    Error error;
    const auto remote = socket.remote_endpoint(error);
    if (error) return;
    const auto local = socket.local_endpoint(error);
    if (error) return;
    const auto address = plain(remote.address());
    const Peer peer{address.to_string(), plain(local.address()).to_string(),
                    address.is_loopback()};
    if (!is_near(address)) {
      log.tell(Level::warning, peer.address + " is not of the LAN: not answered");
      return;
    }
    if (!hall.has_room(peer.address)) {
      log.tell(Level::warning, peer.address + " has too many connections: not answered");
      return;
    }
    socket.set_option(tcp::no_delay{true}, error);
    make_connection(std::move(socket), hall, peer, tls ? &*tls : nullptr)->begin();
  }

  // --- stopping
  // --------------------------------------------------------------------------------

  void close() {
    if (hall.stopping) return;
    hall.stopping = true;
    log.tell(Level::info, "stopping");
    Error ignored;
    acceptor.close(ignored);
    pause.cancel();
    signals.cancel(ignored);
    each(&Connection::finish);
    grace.expires_after(options.limits.grace);
    grace.async_wait([this](Error cancelled) {
      if (cancelled) return;
      log.tell(Level::warning, fmt::format("{} connections cut short", hall.open.size()));
      each(&Connection::cut);
    });
    watch();
  }

  /// Ends the wait for the grace as soon as nobody is left.
  void watch() {
    if (hall.open.empty()) {
      grace.cancel();
      return;
    }
    pause.expires_after(std::chrono::milliseconds{10});
    pause.async_wait([this](Error) { watch(); });
  }

  void each(void (Connection::*what)()) const {
    // A connection may leave the set while it is told.
    const std::vector<Connection*> all{hall.open.begin(), hall.open.end()};
    for (Connection* one : all) {
      if (hall.open.contains(one)) (one->*what)();
    }
  }

  Options options;
  Log log;
  Router router;
  Access access;
  Reception reception;
  Events* events;
  Hall hall;
  std::optional<asio::ssl::context> tls;
  std::uint16_t port = 0;

  // Below what their handlers use, and above the workers, who post to them until they are
  // joined.
  asio::io_context io{1};
  tcp::acceptor acceptor{io};
  asio::steady_timer pause{io};
  asio::steady_timer grace{io};
  asio::signal_set signals{io};
  std::optional<Workers> workers;
};

Server::Server(Options options, Router router, Events& events, Devices& devices)
    : inside_(
          std::make_unique<Inside>(std::move(options), std::move(router), events, devices)) {}

Server::~Server() = default;

std::uint16_t Server::port() const { return inside_->port; }

std::string Server::address() const {
  const Options& options = inside_->options;
  const char* scheme = options.tls ? "https" : "http";
  const auto listening = endpoint_of(options).address();
  std::string host = listening.is_unspecified() ? "127.0.0.1" : listening.to_string();
  if (listening.is_v6() && !listening.is_unspecified()) host = "[" + host + "]";
  return fmt::format("{}://{}:{}", scheme, host, inside_->port);
}

void Server::run() {
  Inside& in = *inside_;
  if (in.options.on_signals) {
    in.signals.add(SIGINT);
    in.signals.add(SIGTERM);
    in.signals.async_wait([&in](Error error, int) {
      if (!error) in.close();
    });
  }
  in.log.tell(Level::info, "listening at " + address());
  in.accept();
  in.io.run();
  in.events->drop_all();
  in.log.tell(Level::info, "stopped");
}

void Server::stop() {
  asio::post(inside_->io, [in = inside_.get()] { in->close(); });
}

Log& Server::log() { return inside_->log; }

}  // namespace lynearm::serve
