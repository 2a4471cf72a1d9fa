#include "serve/server.hpp"

#include <fmt/format.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/ip/v6_only.hpp>
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

/// Where to listen: the first that can be had. "::" is to take IPv4 as well; a machine without
/// IPv6 has "0.0.0.0".
std::vector<tcp::endpoint> endpoints_of(const Options& options) {
  if (options.address.empty()) {
    if (!options.lan) return {{asio::ip::address_v4::loopback(), options.port}};
    return {{asio::ip::address_v6::any(), options.port},
            {asio::ip::address_v4::any(), options.port}};
  }
  const std::string& text = options.address;
  Error error;
  const auto address = asio::ip::make_address(text, error);
  if (error) throw base::InputError{"address", text, "an IPv4 or IPv6 address of this machine"};
  if (!options.lan && !address.is_loopback()) {
    throw base::InputError{"address", text,
                           "a loopback address, unless the house is opened "
                           "to the LAN"};
  }
  return {{address, options.port}};
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
    Error error;
    for (const tcp::endpoint& endpoint : endpoints_of(options)) {
      error = listen_at(endpoint);
      if (!error) break;
    }
    if (error) {
      throw base::InputError{
          "port", std::to_string(options.port),
          fmt::format("a port that is free at {} ({})",
                      endpoints_of(options).back().address().to_string(), error.message())};
    }
    listening = acceptor.local_endpoint();
  }

  Error listen_at(const tcp::endpoint& endpoint) {
    Error error;
    Error ignored;
    acceptor.close(ignored);
    acceptor.open(endpoint.protocol(), error);
    if (!error) acceptor.set_option(tcp::acceptor::reuse_address{true}, error);
    const bool both = endpoint.address() == asio::ip::address_v6::any();
    if (!error && both) acceptor.set_option(asio::ip::v6_only{false}, error);
    if (!error) acceptor.bind(endpoint, error);
    if (!error) acceptor.listen(asio::socket_base::max_listen_connections, error);
    return error;
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
  tcp::endpoint listening;

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

std::uint16_t Server::port() const { return inside_->listening.port(); }

std::string Server::address() const {
  const Options& options = inside_->options;
  const char* scheme = options.tls ? "https" : "http";
  const auto listening = inside_->listening.address();
  std::string host = listening.is_unspecified() ? "127.0.0.1" : listening.to_string();
  if (listening.is_v6() && !listening.is_unspecified()) host = "[" + host + "]";
  return fmt::format("{}://{}:{}", scheme, host, port());
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
