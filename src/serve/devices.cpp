#include "serve/devices.hpp"

#include <algorithm>
#include <tuple>

namespace lynearm::serve {

void DevicesInMemory::remember(const Device& device, const std::string& token_hash) {
  const std::lock_guard lock{mutex_};
  by_hash_.insert_or_assign(token_hash, device);
}

std::optional<Device> DevicesInMemory::find(const std::string& token_hash) const {
  const std::lock_guard lock{mutex_};
  const auto found = by_hash_.find(token_hash);
  if (found == by_hash_.end()) return std::nullopt;
  return found->second;
}

std::vector<Device> DevicesInMemory::list() const {
  std::vector<Device> devices;
  {
    const std::lock_guard lock{mutex_};
    for (const auto& [hash, device] : by_hash_) devices.push_back(device);
  }
  std::sort(devices.begin(), devices.end(), [](const Device& a, const Device& b) {
    return std::tie(a.paired_at, a.id) < std::tie(b.paired_at, b.id);
  });
  return devices;
}

bool DevicesInMemory::revoke(const std::string& id) {
  const std::lock_guard lock{mutex_};
  return std::erase_if(by_hash_, [&](const auto& one) { return one.second.id == id; }) > 0;
}

}  // namespace lynearm::serve
