#include "serve/pairing.hpp"

#include "serve/token.hpp"

namespace lynearm::serve {

std::string Pairing::offer(Time now) {
  std::string code = new_code();
  const std::lock_guard lock{mutex_};
  offered_ = Offered{hash_of(code), now + lasts};
  return code;
}

bool Pairing::redeem(const std::string& code, Time now) {
  const std::string hash = hash_of(code);
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
