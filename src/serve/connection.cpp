#include "serve/connection.hpp"

#include <boost/beast/core/detect_ssl.hpp>
#include <utility>

#include "serve/sockets.hpp"
#include "serve/talk.hpp"

namespace lynearm::serve {

namespace {

/// At a port of TLS: looks at the first bytes, since who types the address without https is to
/// be told so. The request itself is answered by the guard, who sees that the peer is not
/// sealed.
class Doorstep final : public Connection, public std::enable_shared_from_this<Doorstep> {
 public:
  Doorstep(Hall& hall, Peer peer, Plain stream, boost::asio::ssl::context& tls)
      : Connection(hall, std::move(peer)), stream_(std::move(stream)), tls_(&tls) {}

  void begin() override {
    stream_.expires_after(hall_->limits.header_time);
    boost::beast::async_detect_ssl(stream_, buffer_,
                                   [self = shared_from_this()](NetError error, bool sealed) {
                                     if (error || self->hall_->stopping) return self->cut();
                                     self->let_in(sealed);
                                   });
  }

  void finish() override { cut(); }
  void cut() override { close(stream_); }

 private:
  void let_in(bool sealed) {
    peer_.sealed = sealed;
    if (sealed) {
      std::make_shared<Talk<Sealed>>(*hall_, peer_, std::move(buffer_), std::move(stream_),
                                     *tls_)
          ->begin();
    } else {
      std::make_shared<Talk<Plain>>(*hall_, peer_, std::move(buffer_), std::move(stream_))
          ->begin();
    }
  }

  Plain stream_;
  boost::beast::flat_buffer buffer_;
  boost::asio::ssl::context* tls_;
};

}  // namespace

Connection::Connection(Hall& hall, Peer peer) : hall_(&hall), peer_(std::move(peer)) {
  hall_->open.insert(this);
  ++hall_->open_by_peer[peer_.address];
}

Connection::~Connection() {
  hall_->open.erase(this);
  const auto found = hall_->open_by_peer.find(peer_.address);
  if (--found->second == 0) hall_->open_by_peer.erase(found);
}

std::shared_ptr<Connection> make_connection(boost::asio::ip::tcp::socket socket, Hall& hall,
                                            Peer peer, boost::asio::ssl::context* tls) {
  Plain stream{std::move(socket)};
  if (tls != nullptr) {
    return std::make_shared<Doorstep>(hall, std::move(peer), std::move(stream), *tls);
  }
  return std::make_shared<Talk<Plain>>(hall, std::move(peer), boost::beast::flat_buffer{},
                                       std::move(stream));
}

}  // namespace lynearm::serve
