// The devices that were paired with the house: their names, and the SHA-256 of their tokens
// (the tokens themselves are never seen here). Held in memory, so that asking costs no disk;
// what changes is on the disk before the call returns.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "journal/moment.hpp"

namespace lynearm::store {

struct Device {
  std::string id;          ///< short and public
  std::string name;        ///< as given when it was paired
  std::string token_hash;  ///< 64 hexadecimal digits, lower case
  journal::Moment paired;
  journal::Moment last_seen;
  std::optional<journal::Moment> revoked;

  friend bool operator==(const Device&, const Device&) = default;
};

/// The table of a database. Called from one thread at a time, save listen's function.
class DeviceTable {
 public:
  virtual ~DeviceTable() = default;
  [[nodiscard]] virtual std::vector<Device> all() = 0;
  /// throws     Trouble (refused) when the id or the token is there already
  virtual void add(const Device& device) = 0;
  virtual void revoke(const std::string& id, journal::Moment at) = 0;
  virtual void seen(const std::string& id, journal::Moment at) = 0;
};

/// May be called from any thread.
class Devices {
 public:
  explicit Devices(std::unique_ptr<DeviceTable> table);

  /// throws     InputError at "device.name" (empty, or over 80 bytes), at "device.token_hash"
  /// or
  ///            "device.id" (malformed, or there already)
  void add(const Device& device);
  /// Nothing for an unknown token and for a revoked device.
  [[nodiscard]] std::optional<Device> find(const std::string& token_hash) const;
  /// By pairing, oldest first; revoked ones too.
  [[nodiscard]] std::vector<Device> list() const;
  /// For good. returns false when no device has this id, or it was revoked before.
  bool revoke(const std::string& id, journal::Moment at);
  /// Written down at most every ten minutes a device, so that asking stays free of the disk.
  void seen(const std::string& id, journal::Moment at);
  /// Reads the table anew: another server may have changed it.
  void refresh();

 private:
  mutable std::mutex mutex_;
  std::unique_ptr<DeviceTable> table_;
  std::map<std::string, Device> by_id_;
  std::map<std::string, std::string> id_by_hash_;  // of those not revoked
};

}  // namespace lynearm::store
