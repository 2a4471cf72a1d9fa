// The two kinds of stream under a connection, plain and under TLS. For the connection's own
// source.
#pragma once

#include <boost/beast/core.hpp>
#include <boost/beast/ssl.hpp>

namespace lynearm::serve {

using NetError = boost::system::error_code;
using Plain = boost::beast::tcp_stream;
using Sealed = boost::beast::ssl_stream<boost::beast::tcp_stream>;

/// The socket below, with its timer.
template <class Stream>
[[nodiscard]] Plain& socket_of(Stream& stream) {
  return boost::beast::get_lowest_layer(stream);
}

/// Closes now, whatever is under way.
template <class Stream>
void close(Stream& stream) {
  NetError ignored;
  auto& socket = socket_of(stream).socket();
  socket.shutdown(boost::asio::ip::tcp::socket::shutdown_both, ignored);
  socket.close(ignored);
}

}  // namespace lynearm::serve
