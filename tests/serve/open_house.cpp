#include "serve/open_house.hpp"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

namespace lynearm::serve {

using Clock = std::chrono::steady_clock;

std::string Answer::header(std::string_view name) const {
  const std::string wanted = fmt::format("\r\n{}: ", name);
  const std::size_t at = head.find(wanted);
  if (at == std::string::npos) return "";
  const std::size_t begin = at + wanted.size();
  return head.substr(begin, head.find("\r\n", begin) - begin);
}

Visitor::Visitor(std::uint16_t port, bool by_ipv6)
    : socket_(::socket(by_ipv6 ? AF_INET6 : AF_INET, SOCK_STREAM, 0)), port_(port) {
  sockaddr_in four{};
  four.sin_family = AF_INET;
  four.sin_port = htons(port);
  four.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  sockaddr_in6 six{};
  six.sin6_family = AF_INET6;
  six.sin6_port = htons(port);
  six.sin6_addr = in6addr_loopback;
  const int failed =
      by_ipv6 ? ::connect(socket_, reinterpret_cast<const sockaddr*>(&six), sizeof six)
              : ::connect(socket_, reinterpret_cast<const sockaddr*>(&four), sizeof four);
  if (failed != 0) {
    ::close(socket_);
    throw std::runtime_error("no connection");
  }
}

Visitor::~Visitor() {
  if (socket_ >= 0) ::close(socket_);
}

Visitor::Visitor(Visitor&& other) noexcept
    : socket_(std::exchange(other.socket_, -1)),
      port_(other.port_),
      closed_(other.closed_),
      buffer_(std::move(other.buffer_)) {}

void Visitor::send(std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) return;  // the server has closed; the answer tells why
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
}

bool Visitor::fill(Clock::time_point until) {
  const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now());
  pollfd ready{socket_, POLLIN, 0};
  if (::poll(&ready, 1, static_cast<int>(std::max<std::int64_t>(left.count(), 0))) <= 0) {
    return false;
  }
  std::array<char, 16384> bytes{};
  const ssize_t got = ::recv(socket_, bytes.data(), bytes.size(), 0);
  if (got <= 0) {
    closed_ = true;
    return false;
  }
  buffer_.append(bytes.data(), static_cast<std::size_t>(got));
  return true;
}

Answer Visitor::receive(bool no_body, std::chrono::milliseconds wait) {
  const auto until = Clock::now() + wait;
  Answer answer;
  std::size_t end = 0;
  while ((end = buffer_.find("\r\n\r\n")) == std::string::npos) {
    if (!fill(until)) return {};
  }
  answer.head = buffer_.substr(0, end + 2);
  buffer_.erase(0, end + 4);
  answer.status = std::stoi(answer.head.substr(9, 3));
  const std::string length = no_body ? "" : answer.header("Content-Length");
  const std::size_t bytes = length.empty() ? 0 : std::stoul(length);
  while (buffer_.size() < bytes) {
    if (!fill(until)) return {};
  }
  answer.body = buffer_.substr(0, bytes);
  buffer_.erase(0, bytes);
  return answer;
}

std::string Visitor::read_until(std::string_view text, std::chrono::milliseconds wait) {
  const auto until = Clock::now() + wait;
  std::size_t at = 0;
  while ((at = buffer_.find(text)) == std::string::npos) {
    if (!fill(until)) return "";
  }
  std::string read = buffer_.substr(0, at + text.size());
  buffer_.erase(0, at + text.size());
  return read;
}

bool Visitor::is_closed(std::chrono::milliseconds wait) {
  const auto until = Clock::now() + wait;
  while (!closed_ && fill(until)) buffer_.clear();
  return closed_;
}

void Visitor::read_little() {
  const int bytes = 4096;
  ::setsockopt(socket_, SOL_SOCKET, SO_RCVBUF, &bytes, sizeof bytes);
}

Answer Visitor::get(std::string_view path, std::string_view headers) {
  send(fmt::format("GET {} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n{}\r\n", path, port_, headers));
  return receive();
}

Answer Visitor::post(std::string_view path, std::string_view json, std::string_view headers) {
  send(
      fmt::format("POST {} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nContent-Type: application/json\r\n"
                  "Content-Length: {}\r\n{}\r\n{}",
                  path, port_, json.size(), headers, json));
  return receive();
}

OpenHouse::OpenHouse(const std::function<void(Router&, OpenHouse&)>& fill,
                     const std::function<void(Options&)>& change) {
  Options options;
  options.port = 0;
  options.on_signals = false;
  options.log.least = Level::debug;
  options.log.taker = [this](std::string_view line) {
    const std::lock_guard lock{mutex_};
    lines_ += line;
  };
  if (change) change(options);
  Router router;
  if (fill) fill(router, *this);
  server_.emplace(std::move(options), std::move(router), events, devices);
  thread_ = std::thread{[this] { server_->run(); }};
}

OpenHouse::~OpenHouse() { stop(); }

std::chrono::milliseconds OpenHouse::stop() {
  const auto begin = Clock::now();
  if (thread_.joinable()) {
    server_->stop();
    thread_.join();
  }
  return std::chrono::duration_cast<std::chrono::milliseconds>(Clock::now() - begin);
}

std::string OpenHouse::logged() {
  const std::lock_guard lock{mutex_};
  return lines_;
}

}  // namespace lynearm::serve
