// Devices and attachments in a PostgreSQL database, shared by its servers.
#pragma once

#include <string>

#include "store/attachments.hpp"
#include "store/devices.hpp"
#include "store/postgresql/engine.hpp"

namespace lynearm::store::postgresql {

inline constexpr const char* devices_channel = "lynearm_devices";

class PostgresqlDevices final : public DeviceTable {
 public:
  explicit PostgresqlDevices(const std::string& uri) : connections_(uri) {}

  [[nodiscard]] std::vector<Device> all() override;
  void add(const Device& device) override;
  void revoke(const std::string& id, journal::Moment at) override;
  void seen(const std::string& id, journal::Moment at) override;

 private:
  void change(const std::string& sql, const std::vector<Value>& values);
  Lender connections_;
};

class PostgresqlAttachments final : public Attachments {
 public:
  explicit PostgresqlAttachments(const std::string& uri) : connections_(uri) {}
  [[nodiscard]] std::vector<std::string> names() override;

 protected:
  void write(const std::string& name, std::span<const std::uint8_t> content) override;
  [[nodiscard]] std::optional<std::vector<std::uint8_t>> read(const std::string& name) override;

 private:
  Lender connections_;
};

}  // namespace lynearm::store::postgresql
