#include "store/devices.hpp"

#include <algorithm>
#include <utility>

#include "base/error.hpp"

namespace lynearm::store {
namespace {

constexpr std::int64_t between_writes_ms = 600'000;
constexpr std::size_t most_name = 80;

bool is_hash(const std::string& text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

}  // namespace

Devices::Devices(std::unique_ptr<DeviceTable> table) : table_(std::move(table)) { refresh(); }

void Devices::refresh() {
  const std::lock_guard lock(mutex_);
  std::map<std::string, Device> by_id;
  std::map<std::string, std::string> id_by_hash;
  for (Device& device : table_->all()) {
    if (!device.revoked) id_by_hash.emplace(device.token_hash, device.id);
    by_id.emplace(device.id, std::move(device));
  }
  by_id_ = std::move(by_id);
  id_by_hash_ = std::move(id_by_hash);
}

void Devices::add(const Device& device) {
  std::vector<base::Fault> faults;
  const auto fault = [&faults](const char* field, const std::string& value,
                               const char* accepted) {
    faults.push_back({field, value, accepted, "", 0, 0});
  };
  if (device.name.empty() || device.name.size() > most_name) {
    fault("device.name", device.name.substr(0, most_name), "a name of 1 to 80 bytes");
  }
  if (!is_hash(device.token_hash)) {
    fault("device.token_hash", "", "64 hexadecimal digits in lower case");
  }
  const std::lock_guard lock(mutex_);
  if (device.id.empty() || by_id_.contains(device.id)) {
    fault("device.id", device.id, "an id that no other device has");
  }
  const bool token_taken = std::any_of(
      by_id_.begin(), by_id_.end(),
      [&device](const auto& known) { return known.second.token_hash == device.token_hash; });
  if (token_taken) fault("device.token_hash", "", "a token that no other device ever had");
  if (!faults.empty()) throw base::InputError(std::move(faults));

  Device added = device;
  added.revoked.reset();
  table_->add(added);
  id_by_hash_.emplace(added.token_hash, added.id);
  by_id_.emplace(added.id, std::move(added));
}

std::optional<Device> Devices::find(const std::string& token_hash) const {
  const std::lock_guard lock(mutex_);
  const auto id = id_by_hash_.find(token_hash);
  if (id == id_by_hash_.end()) return std::nullopt;
  return by_id_.at(id->second);
}

std::vector<Device> Devices::list() const {
  const std::lock_guard lock(mutex_);
  std::vector<Device> devices;
  devices.reserve(by_id_.size());
  for (const auto& [id, device] : by_id_) devices.push_back(device);
  std::stable_sort(devices.begin(), devices.end(),
                   [](const Device& a, const Device& b) { return a.paired < b.paired; });
  return devices;
}

bool Devices::revoke(const std::string& id, journal::Moment at) {
  const std::lock_guard lock(mutex_);
  const auto found = by_id_.find(id);
  if (found == by_id_.end() || found->second.revoked) return false;
  // Out of memory first: should the disk fail, the device stays out until the next start.
  id_by_hash_.erase(found->second.token_hash);
  table_->revoke(id, at);
  found->second.revoked = at;
  return true;
}

void Devices::seen(const std::string& id, journal::Moment at) {
  const std::lock_guard lock(mutex_);
  const auto found = by_id_.find(id);
  if (found == by_id_.end()) return;
  if (at.milliseconds - found->second.last_seen.milliseconds < between_writes_ms) return;
  found->second.last_seen = at;
  table_->seen(id, at);
}

}  // namespace lynearm::store
