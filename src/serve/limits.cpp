#include "serve/limits.hpp"

#include <algorithm>

namespace lynearm::serve {

namespace {
constexpr std::size_t many = 1024;
}

double Meter::filled(const Bucket& bucket, Time now) const {
  const double gone_s = std::chrono::duration<double>(now - bucket.at).count();
  return std::min(burst_, bucket.holds + std::max(0.0, gone_s) * per_second_);
}

bool Meter::take(const std::string& peer, Time now) {
  if (buckets_.size() >= many && !buckets_.contains(peer)) {
    std::erase_if(buckets_, [&](const auto& one) { return filled(one.second, now) >= burst_; });
    // Full of peers that press on: a new one must wait until a bucket is full again.
    if (buckets_.size() >= many) return false;
  }
  const auto [place, is_new] = buckets_.try_emplace(peer, Bucket{burst_, now});
  Bucket& bucket = place->second;
  bucket.holds = filled(bucket, now);
  bucket.at = now;
  if (bucket.holds < 1) return false;
  bucket.holds -= 1;
  return true;
}

}  // namespace lynearm::serve
