// One connection: reads a request, has it answered on its lane, writes the reply, and again; or
// feeds an event stream until it ends. Lives as long as an operation of its own is under way.
// Callbacks rather than coroutines: Clang 14 cannot build Asio's under the sanitizers.
#pragma once

#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/ssl/context.hpp>
#include <memory>

#include "serve/hall.hpp"

namespace lynearm::serve {

class Connection {
 public:
  virtual ~Connection();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  virtual void begin() = 0;
  /// The house closes: at once when nothing is being answered, else after the reply.
  virtual void finish() = 0;
  /// Closes now.
  virtual void cut() = 0;

 protected:
  Connection(Hall& hall, Peer peer);

  Hall* hall_;
  Peer peer_;
};

/// tls        null for plain HTTP; it and `hall` live longer than the connection
[[nodiscard]] std::shared_ptr<Connection> make_connection(boost::asio::ip::tcp::socket socket,
                                                          Hall& hall, Peer peer,
                                                          boost::asio::ssl::context* tls);

}  // namespace lynearm::serve
