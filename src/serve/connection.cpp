#include "serve/connection.hpp"

#include <fmt/format.h>

#include <array>
#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <boost/beast/ssl.hpp>
#include <chrono>
#include <cstdint>
#include <limits>
#include <optional>
#include <utility>

#include "serve/events.hpp"
#include "serve/http_words.hpp"
#include "serve/problem.hpp"
#include "serve/target.hpp"

namespace lynearm::serve {

namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using Clock = std::chrono::steady_clock;
using Error = boost::system::error_code;
using Plain = beast::tcp_stream;
using Sealed = beast::ssl_stream<beast::tcp_stream>;

constexpr std::chrono::seconds drain_time{2};
constexpr std::size_t first_read = 4096;
constexpr std::chrono::milliseconds gather_time{5};

template <class Stream>
class Talk final : public Connection, public std::enable_shared_from_this<Talk<Stream>> {
 public:
  template <class... More>
  Talk(Hall& hall, Peer peer, More&&... stream)
      : Connection(hall, std::move(peer)),
        stream_(std::forward<More>(stream)...),
        heartbeat_(stream_.get_executor()),
        gather_(stream_.get_executor()) {}

  void begin() override {
    if constexpr (std::is_same_v<Stream, Sealed>) {
      tcp().expires_after(hall_->limits.header_time);
      stream_.async_handshake(asio::ssl::stream_base::server,
                              [self = this->shared_from_this()](Error error) {
                                if (!error) self->next_request();
                              });
    } else {
      next_request();
    }
  }

  void finish() override {
    if (subscription_) {
      subscription_->drop();
    } else if (!answering_) {
      cut();
    }
  }

  void cut() override {
    heartbeat_.cancel();
    gather_.cancel();
    if (subscription_) subscription_->when_ready(nullptr);
    Error ignored;
    tcp().socket().shutdown(asio::ip::tcp::socket::shutdown_both, ignored);
    tcp().socket().close(ignored);
  }

 private:
  Plain& tcp() { return beast::get_lowest_layer(stream_); }

  auto then(void (Talk::*next)(Error)) {
    return [self = this->shared_from_this(), next](Error error, std::size_t) {
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
    tcp().expires_after(hall_->limits.idle);
    stream_.async_read_some(buffer_.prepare(first_read),
                            [self = this->shared_from_this()](Error error, std::size_t bytes) {
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
    tcp().expires_at(deadline_);
    http::async_read_some(stream_, buffer_, *parser_, then(&Talk::on_read));
  }

  void on_read(Error error) {
    if (error) return on_bad_read(error);
    if (!parser_->is_header_done()) return read_more();
    if (!head_done_) return on_head();
    if (!parser_->is_done()) return read_more();
    on_whole();
  }

  void on_bad_read(Error error) {
    if (error == http::error::end_of_stream || !is_http_error(error)) return cut();
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
    head_only_ = head.method() == http::verb::head;
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
    if (admission.refusal) {
      if (!parser_->is_done()) {
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
    if (beast::iequals(head[http::field::expect], "100-continue")) {
      piece_ = "HTTP/1.1 100 Continue\r\n\r\n";
      tcp().expires_after(hall_->limits.write_time);
      asio::async_write(stream_, asio::buffer(piece_), then(&Talk::on_continue));
    } else {
      read_more();
    }
  }

  void on_continue(Error error) {
    if (error) return cut();
    read_more();
  }

  void on_whole() {
    answering_ = true;
    request_.body = std::move(parser_->get().body());
    const bool taken = hall_->workers->post(
        route_->terms.lane, [self = this->shared_from_this(),
                             work = asio::make_work_guard(stream_.get_executor())]() mutable {
          // The connection may only be let go of on its own thread: it moves on from here.
          Reply reply = self->hall_->reception->answer(self->request_, *self->route_);
          asio::post(work.get_executor(),
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
    tcp().expires_after(hall_->limits.write_time);
    http::async_write(stream_, message_, then(&Talk::on_sent));
  }

  void on_sent(Error error) {
    if (error) return cut();
    if (subscription_) return open_stream();
    if (unread_body_) return drain();
    if (!keep_alive_ || hall_->stopping) return cut();
    next_request();
  }

  /// A close with unread bytes would reset the connection and take the reply with it.
  void drain() {
    Error ignored;
    tcp().socket().shutdown(asio::ip::tcp::socket::shutdown_send, ignored);
    deadline_ = Clock::now() + drain_time;
    drain_more();
  }

  void drain_more() {
    tcp().expires_at(deadline_);
    tcp().async_read_some(asio::buffer(scrap_), then(&Talk::on_drained));
  }

  void on_drained(Error error) {
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

  // --- a stream of events
  // ----------------------------------------------------------------------

  void open_stream() {
    if (hall_->stopping) return cut();
    subscription_->when_ready(
        [weak = this->weak_from_this(), executor = stream_.get_executor()] {
          asio::post(executor, [weak] {
            if (const auto self = weak.lock()) self->soon();
          });
        });
    // Nothing is expected from the page; a read that ends tells that it has gone.
    tcp().expires_never();
    stream_.async_read_some(asio::buffer(scrap_), then(&Talk::on_gone));
    rest();
  }

  void on_gone(Error) { cut(); }

  /// Writes what comes within a moment in one piece: under a load of readings, a hundred
  /// streams would otherwise cost a hundred writes each, before the next acknowledgement.
  void soon() {
    if (writing_ || subscription_->dropped()) return pump();
    if (gathering_) return;
    gathering_ = true;
    gather_.expires_after(gather_time);
    gather_.async_wait([weak = this->weak_from_this()](Error error) {
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
    tcp().expires_after(hall_->limits.write_time);
    asio::async_write(stream_, asio::buffer(piece_), then(&Talk::on_piece));
  }

  void on_piece(Error error) {
    writing_ = false;
    if (error) return cut();
    rest();
    soon();
  }

  void rest() {
    heartbeat_.expires_after(hall_->limits.heartbeat);
    heartbeat_.async_wait([weak = this->weak_from_this()](Error error) {
      const auto self = weak.lock();
      if (error || !self || self->writing_) return;
      self->piece_ = ":\n\n";
      self->write_piece();
    });
  }

  Stream stream_;
  beast::flat_buffer buffer_;
  std::optional<http::request_parser<http::string_body>> parser_;
  Request request_;
  const Route* route_ = nullptr;
  http::response<http::string_body> message_;
  std::string line_;  ///< method and path, for the log
  Clock::time_point deadline_;
  Clock::time_point started_;
  bool head_done_ = false;
  bool answering_ = false;
  bool head_only_ = false;
  bool keep_alive_ = true;
  bool unread_body_ = false;

  std::shared_ptr<Subscription> subscription_;
  asio::steady_timer heartbeat_;
  asio::steady_timer gather_;
  std::string piece_;
  std::array<char, 4096> scrap_{};
  bool writing_ = false;
  bool gathering_ = false;
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

std::shared_ptr<Connection> make_connection(asio::ip::tcp::socket socket, Hall& hall, Peer peer,
                                            asio::ssl::context* tls) {
  if (tls == nullptr) {
    return std::make_shared<Talk<Plain>>(hall, std::move(peer), std::move(socket));
  }
  return std::make_shared<Talk<Sealed>>(hall, std::move(peer), std::move(socket), *tls);
}

}  // namespace lynearm::serve
