// An event stream once its reply's head is sent: writes what is published, a beat when nothing
// is, until the page has gone, takes nothing, or the subscription is dropped. For the
// connection's own source. Beats are events, not comments: a page cannot hear a comment, and
// must notice by itself that a connection is dead which the network has not told it about.
#pragma once

#include <array>
#include <boost/asio/post.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/write.hpp>
#include <chrono>
#include <memory>
#include <string>
#include <utility>

#include "serve/connection.hpp"
#include "serve/events.hpp"
#include "serve/sockets.hpp"

namespace lynearm::serve {

template <class Stream>
class Feed final : public Connection, public std::enable_shared_from_this<Feed<Stream>> {
 public:
  Feed(Hall& hall, Peer peer, Stream stream, std::shared_ptr<Subscription> subscription)
      : Connection(hall, std::move(peer)),
        stream_(std::move(stream)),
        subscription_(std::move(subscription)),
        heartbeat_(stream_.get_executor()),
        gather_(stream_.get_executor()) {}

  void begin() override {
    if (hall_->stopping) return cut();
    subscription_->when_ready(
        [weak = this->weak_from_this(), executor = stream_.get_executor()] {
          boost::asio::post(executor, [weak] {
            if (const auto self = weak.lock()) self->soon();
          });
        });
    // Nothing is expected from the page; a read that ends tells that it has gone.
    socket_of(stream_).expires_never();
    stream_.async_read_some(boost::asio::buffer(scrap_), then(&Feed::on_gone));
    rest();
  }

  void finish() override { subscription_->drop(); }

  void cut() override {
    heartbeat_.cancel();
    gather_.cancel();
    subscription_->when_ready(nullptr);
    close(stream_);
  }

 private:
  auto then(void (Feed::*next)(NetError)) {
    return [self = this->shared_from_this(), next](NetError error, std::size_t) {
      (self.get()->*next)(error);
    };
  }

  void on_gone(NetError) { cut(); }

  /// Writes what comes within a moment in one piece: under a load of readings, a hundred
  /// streams would otherwise cost a hundred writes each, before the next acknowledgement.
  void soon() {
    if (writing_ || subscription_->dropped()) return pump();
    if (gathering_) return;
    gathering_ = true;
    gather_.expires_after(gather_time);
    gather_.async_wait([weak = this->weak_from_this()](NetError error) {
      const auto self = weak.lock();
      if (!self) return;
      self->gathering_ = false;
      if (!error) self->pump();
    });
  }

  void pump() {
    if (writing_) {
      // It was dropped while it takes nothing: too slow, revoked, or the house closes.
      if (subscription_->dropped()) cut();
      return;
    }
    piece_.clear();
    for (const Piece& piece : subscription_->take()) piece_ += *piece;
    if (piece_.empty()) {
      if (subscription_->dropped()) cut();
      return;
    }
    write_piece();
  }

  void write_piece() {
    writing_ = true;
    heartbeat_.cancel();
    socket_of(stream_).expires_after(hall_->limits.write_time);
    boost::asio::async_write(stream_, boost::asio::buffer(piece_), then(&Feed::on_piece));
  }

  void on_piece(NetError error) {
    writing_ = false;
    if (error) return cut();
    rest();
    soon();
  }

  void rest() {
    heartbeat_.expires_after(hall_->limits.heartbeat);
    heartbeat_.async_wait([weak = this->weak_from_this()](NetError error) {
      const auto self = weak.lock();
      if (error || !self || self->writing_) return;
      self->piece_ = event_text("", "beat", "");
      self->write_piece();
    });
  }

  static constexpr std::chrono::milliseconds gather_time{5};

  Stream stream_;
  std::shared_ptr<Subscription> subscription_;
  boost::asio::steady_timer heartbeat_;
  boost::asio::steady_timer gather_;
  std::string piece_;
  std::array<char, 4096> scrap_{};
  bool writing_ = false;
  bool gathering_ = false;
};

}  // namespace lynearm::serve
