// Pairing a phone: the laptop asks for a code and shows it in a picture, the phone sends it
// back with a name and gets a token of its own. A code lasts five minutes and opens once;
// asking for another takes the one before away. Time is an argument. Safe from any thread.
#pragma once

#include <chrono>
#include <mutex>
#include <optional>
#include <string>

namespace lynearm::serve {

/// Counts on while the laptop sleeps, as std::chrono::steady_clock does not on Linux: a code
/// would outlive its five minutes under a closed lid. Nobody can set it back.
struct WakingClock {
  using duration = std::chrono::nanoseconds;
  using rep = duration::rep;
  using period = duration::period;
  using time_point = std::chrono::time_point<WakingClock>;
  static constexpr bool is_steady = true;
  [[nodiscard]] static time_point now() noexcept;
};

class Pairing {
 public:
  using Time = WakingClock::time_point;
  static constexpr std::chrono::seconds lasts{300};

  /// A new code (token.hpp); the one before opens no more.
  [[nodiscard]] std::string offer(Time now);

  /// True once, for the code last offered, as it is read or typed (code_typed()), until it is
  /// five minutes old.
  [[nodiscard]] bool redeem(const std::string& code, Time now);

 private:
  struct Offered {
    std::string hash;  ///< of the code: compared so, the time taken tells nothing of it
    Time until;
  };
  std::mutex mutex_;
  std::optional<Offered> offered_;
};

}  // namespace lynearm::serve
