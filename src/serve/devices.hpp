// The devices a house knows. The store keeps them for good; the one here forgets them with the
// process, for tests and for a house that is not opened to the LAN.
#pragma once

#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "serve/device.hpp"

namespace lynearm::serve {

/// Called from several threads at once. `find` stands before every request of a paired device,
/// so an implementation answers it in well under a millisecond, and a revoked device must be
/// gone from it at once in this process, within a second in another.
class Devices {
 public:
  virtual ~Devices() = default;
  /// token_hash   hash_of(token), 64 hexadecimal digits; the token itself is never seen here
  virtual void remember(const Device& device, const std::string& token_hash) = 0;
  [[nodiscard]] virtual std::optional<Device> find(const std::string& token_hash) const = 0;
  /// Oldest first.
  [[nodiscard]] virtual std::vector<Device> list() const = 0;
  /// returns    false when no device has this id
  virtual bool revoke(const std::string& id) = 0;

 protected:
  Devices() = default;
  Devices(const Devices&) = default;
  Devices& operator=(const Devices&) = default;
};

class DevicesInMemory final : public Devices {
 public:
  void remember(const Device& device, const std::string& token_hash) override;
  [[nodiscard]] std::optional<Device> find(const std::string& token_hash) const override;
  [[nodiscard]] std::vector<Device> list() const override;
  bool revoke(const std::string& id) override;

 private:
  mutable std::mutex mutex_;
  std::map<std::string, Device> by_hash_;
};

}  // namespace lynearm::serve
