#include "store/sqlite/devices.hpp"

#include "store/sqlite/statement.hpp"

namespace lynearm::store::sqlite {

std::vector<Device> SqliteDevices::all() {
  Statement statement(database_,
                      "SELECT id, name, token_hash, paired_ms, last_seen_ms, revoked_ms "
                      "FROM device");
  std::vector<Device> devices;
  while (statement.step()) {
    Device device;
    device.id = statement.text(0);
    device.name = statement.text(1);
    device.token_hash = statement.text(2);
    device.paired = {statement.number(3)};
    device.last_seen = {statement.number(4)};
    if (!statement.is_null(5)) device.revoked = journal::Moment{statement.number(5)};
    devices.push_back(std::move(device));
  }
  return devices;
}

void SqliteDevices::add(const Device& device) {
  Keeping keeping(database_, *log_);
  Statement(database_,
            "INSERT INTO device (id, name, token_hash, paired_ms, last_seen_ms) "
            "VALUES (?1, ?2, ?3, ?4, ?5)")
      .bind(1, device.id)
      .bind(2, device.name)
      .bind(3, device.token_hash)
      .bind(4, device.paired.milliseconds)
      .bind(5, device.last_seen.milliseconds)
      .run();
  keeping.commit();
}

void SqliteDevices::revoke(const std::string& id, journal::Moment at) {
  Keeping keeping(database_, *log_);
  Statement(database_, "UPDATE device SET revoked_ms = ?2 WHERE id = ?1 AND revoked_ms IS NULL")
      .bind(1, id)
      .bind(2, at.milliseconds)
      .run();
  keeping.commit();
}

void SqliteDevices::seen(const std::string& id, journal::Moment at) {
  Keeping keeping(database_, *log_);
  Statement(database_, "UPDATE device SET last_seen_ms = ?2 WHERE id = ?1")
      .bind(1, id)
      .bind(2, at.milliseconds)
      .run();
  keeping.commit();
}

}  // namespace lynearm::store::sqlite
