// A server of its own on a free port, run by a thread, and a visitor with a plain socket.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include "serve/server.hpp"

namespace lynearm::serve {

struct Answer {
  int status = 0;
  std::string head;
  std::string body;

  /// The value of a header; "" when it is not there. Name as sent.
  [[nodiscard]] std::string header(std::string_view name) const;
};

/// A blocking connection to 127.0.0.1, or by IPv6 to ::1.
class Visitor {
 public:
  /// throws     std::runtime_error when nobody listens there
  explicit Visitor(std::uint16_t port, bool by_ipv6 = false);
  ~Visitor();
  Visitor(Visitor&& other) noexcept;
  Visitor(const Visitor&) = delete;
  Visitor& operator=(const Visitor&) = delete;
  Visitor& operator=(Visitor&&) = delete;

  void send(std::string_view bytes);
  /// Reads one whole reply; status 0 when the connection ends or `wait` is over before.
  /// no_body   it answers a HEAD
  Answer receive(bool no_body = false,
                 std::chrono::milliseconds wait = std::chrono::seconds{10});
  /// Reads until `text` was seen; what was read. Empty when it did not come.
  std::string read_until(std::string_view text,
                         std::chrono::milliseconds wait = std::chrono::seconds{10});
  /// The server has closed within `wait`; what it still sent is thrown away.
  bool is_closed(std::chrono::milliseconds wait = std::chrono::seconds{10});
  /// Makes the kernel's own buffer small, so that a visitor who does not read is noticed.
  void read_little();

  Answer get(std::string_view path, std::string_view headers = "");
  Answer post(std::string_view path, std::string_view json, std::string_view headers = "");

 private:
  bool fill(std::chrono::steady_clock::time_point until);

  int socket_ = -1;
  std::uint16_t port_ = 0;
  bool closed_ = false;
  std::string buffer_;
};

class OpenHouse {
 public:
  /// change   adjusts the options: port 0, no signals, a log that is kept
  explicit OpenHouse(const std::function<void(Router&, OpenHouse&)>& fill = nullptr,
                     const std::function<void(Options&)>& change = nullptr);
  ~OpenHouse();
  OpenHouse(const OpenHouse&) = delete;
  OpenHouse& operator=(const OpenHouse&) = delete;

  [[nodiscard]] std::uint16_t port() const { return server_->port(); }
  [[nodiscard]] Visitor visitor() const { return Visitor{port()}; }
  /// Stops and waits; how long it took.
  std::chrono::milliseconds stop();
  [[nodiscard]] std::string logged();

  Events events;
  DevicesInMemory devices;

 private:
  std::mutex mutex_;
  std::string lines_;
  std::optional<Server> server_;
  std::thread thread_;
};

}  // namespace lynearm::serve
