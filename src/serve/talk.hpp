// Requests and their replies on one connection: reads a request, has it answered on its lane,
// writes the reply, and again. A reply that is an event stream is handed to a Feed. For the
// connection's own source.
#pragma once

#include <fmt/format.h>

#include <array>
#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/http.hpp>
#include <chrono>
#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>

#include "serve/connection.hpp"
#include "serve/feed.hpp"
#include "serve/http_words.hpp"
#include "serve/problem.hpp"
#include "serve/sockets.hpp"
#include "serve/target.hpp"

namespace lynearm::serve {

template <class Stream>
class Talk final : public Connection, public std::enable_shared_from_this<Talk<Stream>> {
 public:
  /// buffer     what was read already, before it was known which stream this is
  template <class... More>
  Talk(Hall& hall, Peer peer, boost::beast::flat_buffer buffer, More&&... stream)
      : Connection(hall, std::move(peer)),
        stream_(std::forward<More>(stream)...),
        buffer_(std::move(buffer)) {}

  void begin() override {
    if constexpr (std::is_same_v<Stream, Sealed>) {
      socket_of(stream_).expires_after(hall_->limits.header_time);
      stream_.async_handshake(
          boost::asio::ssl::stream_base::server, buffer_.data(),
          [self = this->shared_from_this()](NetError error, std::size_t used) {
            if (error) return self->cut();
            self->buffer_.consume(used);
            self->next_request();
          });
    } else {
      next_request();
    }
  }

  void finish() override {
    if (!answering_) cut();
  }

  void cut() override { close(stream_); }

 private:
  using Clock = std::chrono::steady_clock;

  auto then(void (Talk::*next)(NetError)) {
    return [self = this->shared_from_this(), next](NetError error, std::size_t) {
      (self.get()->*next)(error);
    };
  }

  // --- a request
  // -------------------------------------------------------------------------------

  void next_request() {
    parser_.emplace();
    // The route's own limit is set once the head is read; none of the body is kept before. Not
    // boost::none: Beast 1.74 takes every announced length for longer than that.
    parser_->body_limit(std::numeric_limits<std::uint64_t>::max());
    parser_->header_limit(static_cast<std::uint32_t>(hall_->limits.header_bytes));
    request_ = {};
    route_ = nullptr;
    head_done_ = false;
    answering_ = false;
    if (buffer_.size() > 0) return begin_head();  // sent together with the request before
    socket_of(stream_).expires_after(hall_->limits.idle);
    stream_.async_read_some(
        buffer_.prepare(first_read),
        [self = this->shared_from_this()](NetError error, std::size_t bytes) {
          if (error) return self->cut();
          self->buffer_.commit(bytes);
          self->begin_head();
        });
  }

  /// The time for the head begins with its first byte: a drip of bytes does not buy more.
  void begin_head() {
    deadline_ = Clock::now() + hall_->limits.header_time;
    read_more();
  }

  void read_more() {
    socket_of(stream_).expires_at(deadline_);
    boost::beast::http::async_read_some(stream_, buffer_, *parser_, then(&Talk::on_read));
  }

  void on_read(NetError error) {
    if (error) return on_bad_read(error);
    if (!parser_->is_header_done()) return read_more();
    if (!head_done_) return on_head();
    if (!parser_->is_done()) return read_more();
    on_whole();
  }

  void on_bad_read(NetError error) {
    if (error == boost::beast::http::error::end_of_stream || !is_http_error(error))
      return cut();
    if (!head_done_) {
      started_ = Clock::now();
      line_ = "(unread)";
    }
    keep_alive_ = false;
    unread_body_ = true;
    send(refusal_of(error));
  }

  void on_head() {
    head_done_ = true;
    started_ = Clock::now();
    const auto& head = parser_->get();
    const std::string target{head.target()};
    head_only_ = head.method() == boost::beast::http::verb::head;
    keep_alive_ = head.keep_alive();
    request_.method = head_only_ ? "GET" : std::string{head.method_string()};
    request_.headers = pairs_of(head);
    request_.peer = peer_;
    line_ = fmt::format(
        "{} {}", std::string_view{head.method_string().data(), head.method_string().size()},
        path_part(target));
    const auto length = parser_->content_length();
    Admission admission = hall_->reception->admit(
        request_, target, length ? std::optional<std::uint64_t>{*length} : std::nullopt,
        started_);
    std::optional<Reply> coded = coding_refusal(head);
    const bool is_framed = !coded;
    if (coded && !admission.refusal) admission.refusal = std::move(coded);
    if (admission.refusal) {
      if (!is_framed || !parser_->is_done()) {
        keep_alive_ = false;
        unread_body_ = true;
      }
      return send(std::move(*admission.refusal));
    }
    route_ = admission.route;
    parser_->body_limit(route_->terms.greatest_body);
    if (parser_->is_done()) return on_whole();
    deadline_ = started_ + hall_->limits.body_time +
                std::chrono::seconds{length.value_or(route_->terms.greatest_body) /
                                     hall_->limits.body_pace};
    if (boost::beast::iequals(head[boost::beast::http::field::expect], "100-continue")) {
      continue_ = "HTTP/1.1 100 Continue\r\n\r\n";
      socket_of(stream_).expires_after(hall_->limits.write_time);
      boost::asio::async_write(stream_, boost::asio::buffer(continue_),
                               then(&Talk::on_continue));
    } else {
      read_more();
    }
  }

  void on_continue(NetError error) {
    if (error) return cut();
    read_more();
  }

  void on_whole() {
    answering_ = true;
    request_.body = std::move(parser_->get().body());
    const bool taken = hall_->workers->post(
        route_->terms.lane,
        [self = this->shared_from_this(),
         work = boost::asio::make_work_guard(stream_.get_executor())]() mutable {
          // The connection may only be let go of on its own thread: it moves on from here.
          Reply reply = self->hall_->reception->answer(self->request_, *self->route_);
          boost::asio::post(work.get_executor(),
                            [self = std::move(self), reply = std::move(reply)]() mutable {
                              self->send(std::move(reply));
                            });
        });
    if (!taken) {
      Reply reply = problem(503, "busy", "The house is reckoning all it can",
                            "Try again in a few seconds.");
      reply.headers.emplace_back("Retry-After", "3");
      send(std::move(reply));
    }
  }

  // --- a reply
  // ---------------------------------------------------------------------------------

  void send(Reply reply) {
    answering_ = true;
    hall_->reception->dress(reply);
    tell(reply);
    if (hall_->stopping) keep_alive_ = false;
    subscription_ = head_only_ ? nullptr : std::move(reply.stream);
    if (subscription_) keep_alive_ = false;
    message_ = message_of(std::move(reply), head_only_, keep_alive_, subscription_ != nullptr);
    socket_of(stream_).expires_after(hall_->limits.write_time);
    boost::beast::http::async_write(stream_, message_, then(&Talk::on_sent));
  }

  void on_sent(NetError error) {
    message_ = {};  // may be megabytes, and the next request a minute off
    if (error) return cut();
    if (subscription_) {
      std::make_shared<Feed<Stream>>(*hall_, peer_, std::move(stream_),
                                     std::move(subscription_))
          ->begin();
      return;
    }
    if (unread_body_) return drain();
    if (!keep_alive_ || hall_->stopping) return cut();
    next_request();
  }

  /// A close with unread bytes would reset the connection and take the reply with it.
  void drain() {
    NetError ignored;
    socket_of(stream_).socket().shutdown(boost::asio::ip::tcp::socket::shutdown_send, ignored);
    deadline_ = Clock::now() + drain_time;
    drain_more();
  }

  void drain_more() {
    socket_of(stream_).expires_at(deadline_);
    socket_of(stream_).async_read_some(boost::asio::buffer(scrap_), then(&Talk::on_drained));
  }

  void on_drained(NetError error) {
    if (error) return cut();
    drain_more();
  }

  void tell(const Reply& reply) {
    const Level level = reply.status >= 500   ? Level::warning
                        : reply.status >= 400 ? Level::info
                                              : Level::debug;
    if (!hall_->log->tells(level)) return;
    const double took_ms =
        std::chrono::duration<double, std::milli>(Clock::now() - started_).count();
    hall_->log->tell(level, fmt::format("{} {} {:.1f} ms {} {}", line_, reply.status, took_ms,
                                        peer_.address, request_.who ? request_.who->id : "-"));
  }

  static constexpr std::chrono::seconds drain_time{2};
  static constexpr std::size_t first_read = 4096;

  Stream stream_;
  boost::beast::flat_buffer buffer_;
  std::optional<boost::beast::http::request_parser<boost::beast::http::string_body>> parser_;
  Request request_;
  const Route* route_ = nullptr;
  boost::beast::http::response<boost::beast::http::string_body> message_;
  std::string line_;  ///< method and path, for the log
  Clock::time_point deadline_;
  Clock::time_point started_;
  bool head_done_ = false;
  bool answering_ = false;
  bool head_only_ = false;
  bool keep_alive_ = true;
  bool unread_body_ = false;
  std::shared_ptr<Subscription> subscription_;  ///< of a reply that is a stream
  std::string continue_;
  std::array<char, 4096> scrap_{};
};

}  // namespace lynearm::serve
