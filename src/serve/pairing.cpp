#include "serve/pairing.hpp"

#include <ctime>

#include "serve/token.hpp"

namespace lynearm::serve {

WakingClock::time_point WakingClock::now() noexcept {
  timespec since_boot{};
  static_cast<void>(clock_gettime(CLOCK_BOOTTIME, &since_boot));
  return time_point{std::chrono::seconds{since_boot.tv_sec} +
                    std::chrono::nanoseconds{since_boot.tv_nsec}};
}

std::string Pairing::offer(Time now) {
  std::string code = new_code();
  const std::lock_guard lock{mutex_};
  offered_ = Offered{hash_of(code), now + lasts};
  return code;
}

bool Pairing::redeem(const std::string& code, Time now) {
  const std::string hash = hash_of(code_typed(code));
  const std::lock_guard lock{mutex_};
  if (!offered_) return false;
  if (now >= offered_->until) {
    offered_.reset();
    return false;
  }
  if (offered_->hash != hash) return false;
  offered_.reset();
  return true;
}

}  // namespace lynearm::serve
