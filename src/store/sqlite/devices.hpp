// The paired devices in the SQLite file of the house.
#pragma once

#include <filesystem>
#include <memory>
#include <utility>

#include "store/devices.hpp"
#include "store/sqlite/log.hpp"

namespace lynearm::store::sqlite {

class SqliteDevices final : public DeviceTable {
 public:
  /// The file's schema is up to date.
  SqliteDevices(const std::filesystem::path& file, Use use, std::shared_ptr<Log> log)
      : database_(file, use), log_(std::move(log)) {}

  [[nodiscard]] std::vector<Device> all() override;
  void add(const Device& device) override;
  void revoke(const std::string& id, journal::Moment at) override;
  void seen(const std::string& id, journal::Moment at) override;

 private:
  Database database_;
  std::shared_ptr<Log> log_;
};

}  // namespace lynearm::store::sqlite
