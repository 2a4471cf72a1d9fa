// One connection, as the server holds it. Lives as long as an operation of its own is under
// way. It is one of three in turn: a doorstep that finds out whether TLS is spoken
// (connection.cpp), a talk of requests and replies (talk.hpp), the feed of an event stream
// (feed.hpp). Callbacks rather than coroutines: Clang 14 cannot build Asio's under the
// sanitizers.
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
