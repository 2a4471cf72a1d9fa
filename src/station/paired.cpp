#include "station/paired.hpp"

#include <chrono>

namespace lynearm::station {
namespace {

journal::Moment moment(std::chrono::sys_seconds time) {
  return {std::chrono::milliseconds(time.time_since_epoch()).count()};
}

serve::Device as_served(const store::Device& kept) {
  serve::Device device;
  device.id = kept.id;
  device.name = kept.name;
  device.paired_at = std::chrono::sys_seconds(std::chrono::duration_cast<std::chrono::seconds>(
      std::chrono::milliseconds(kept.paired.milliseconds)));
  return device;
}

}  // namespace

void Paired::remember(const serve::Device& device, const std::string& token_hash) {
  const journal::Moment paired = moment(device.paired_at);
  kept_.add({device.id, device.name, token_hash, paired, paired, std::nullopt});
}

std::optional<serve::Device> Paired::find(const std::string& token_hash) const {
  const std::optional<store::Device> found = kept_.find(token_hash);
  if (!found) return std::nullopt;
  kept_.seen(found->id, now_());
  return as_served(*found);
}

std::vector<serve::Device> Paired::list() const {
  std::vector<serve::Device> devices;
  for (const store::Device& one : kept_.list()) {
    if (!one.revoked) devices.push_back(as_served(one));
  }
  return devices;
}

bool Paired::revoke(const std::string& id) { return kept_.revoke(id, now_()); }

}  // namespace lynearm::station
