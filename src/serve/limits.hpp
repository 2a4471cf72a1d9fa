// How much one side may ask of the server, and how fast. Numbers, and the meter of requests a
// peer (a token bucket). Time is an argument.
#pragma once

#include <chrono>
#include <cstddef>
#include <string>
#include <unordered_map>

namespace lynearm::serve {

struct Limits {
  std::size_t header_bytes = std::size_t{16} * 1024;
  std::chrono::milliseconds idle{75'000};         ///< between two requests on one connection
  std::chrono::milliseconds header_time{10'000};  ///< from the first byte of a request
  /// For a body, besides one second for each `body_pace` bytes of it.
  std::chrono::milliseconds body_time{10'000};
  std::size_t body_pace = std::size_t{20} * 1024;
  std::chrono::milliseconds write_time{
      20'000};  ///< a reply, or one piece of a stream, not taken
  std::chrono::milliseconds heartbeat{15'000};  ///< a beat on a silent event stream
  std::chrono::milliseconds grace{10'000};      ///< for running requests, when stopping
  std::size_t connections = 512;
  std::size_t connections_a_peer = 192;
  double requests_a_second = 2000;  ///< of one peer, known or on this machine
  double burst = 4000;
  double strange_requests_a_second = 20;  ///< of one peer without a token
  double strange_burst = 120;             ///< a first load of the page fits
  std::size_t slow_waiting = 64;          ///< requests waiting for the slow lane
};

/// A bucket of `burst` requests a peer that fills at `per_second`.
class Meter {
 public:
  using Time = std::chrono::steady_clock::time_point;
  Meter(double per_second, double burst) : per_second_(per_second), burst_(burst) {}

  /// Takes one request of `peer` out of its bucket; false when it is empty. Times do not go
  /// back.
  bool take(const std::string& peer, Time now);

  /// Buckets kept; full ones are forgotten when there are many.
  [[nodiscard]] std::size_t size() const { return buckets_.size(); }

 private:
  struct Bucket {
    double holds;
    Time at;
  };
  [[nodiscard]] double filled(const Bucket& bucket, Time now) const;

  double per_second_;
  double burst_;
  std::unordered_map<std::string, Bucket> buckets_;
};

}  // namespace lynearm::serve
