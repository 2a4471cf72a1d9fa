#include "store/postgresql/tables.hpp"

namespace lynearm::store::postgresql {

std::vector<Device> PostgresqlDevices::all() {
  std::vector<Device> devices;
  connections_.with([&](Connection& connection) {
    const Result found = connection.run(
        "SELECT id, name, token_hash, paired_ms, last_seen_ms, revoked_ms FROM lynearm.device");
    devices.clear();
    for (int at = 0; at < found.rows(); ++at) {
      Device device;
      device.id = found.text(at, 0);
      device.name = found.text(at, 1);
      device.token_hash = found.text(at, 2);
      device.paired = {found.number(at, 3)};
      device.last_seen = {found.number(at, 4)};
      if (!found.is_null(at, 5)) device.revoked = journal::Moment{found.number(at, 5)};
      devices.push_back(std::move(device));
    }
  });
  return devices;
}

void PostgresqlDevices::change(const std::string& sql, const std::vector<Value>& values) {
  connections_.with([&](Connection& connection) {
    Transaction transaction(connection);
    connection.run(sql, values);
    connection.run("SELECT pg_notify($1, '')", {devices_channel});
    transaction.commit();
  });
}

void PostgresqlDevices::add(const Device& device) {
  change(
      "INSERT INTO lynearm.device (id, name, token_hash, paired_ms, last_seen_ms) "
      "VALUES ($1, $2, $3, $4, $5)",
      {device.id, device.name, device.token_hash, device.paired.milliseconds,
       device.last_seen.milliseconds});
}

void PostgresqlDevices::revoke(const std::string& id, journal::Moment at) {
  change("UPDATE lynearm.device SET revoked_ms = $2 WHERE id = $1 AND revoked_ms IS NULL",
         {id, at.milliseconds});
}

void PostgresqlDevices::seen(const std::string& id, journal::Moment at) {
  change("UPDATE lynearm.device SET last_seen_ms = greatest(last_seen_ms, $2) WHERE id = $1",
         {id, at.milliseconds});
}

std::vector<std::string> PostgresqlAttachments::names() {
  std::vector<std::string> names;
  connections_.with([&](Connection& connection) {
    const Result found =
        connection.run("SELECT name FROM lynearm.attachment ORDER BY name COLLATE \"C\"");
    names.clear();
    for (int at = 0; at < found.rows(); ++at) names.push_back(found.text(at, 0));
  });
  return names;
}

void PostgresqlAttachments::write(const std::string& name,
                                  std::span<const std::uint8_t> content) {
  Value bytes(std::string(content.begin(), content.end()));
  bytes.binary = true;
  connections_.with([&](Connection& connection) {
    connection.run(
        "INSERT INTO lynearm.attachment (name, content) VALUES ($1, $2) "
        "ON CONFLICT (name) DO UPDATE SET content = EXCLUDED.content",
        {name, bytes});
  });
}

std::optional<std::vector<std::uint8_t>> PostgresqlAttachments::read(const std::string& name) {
  std::optional<std::vector<std::uint8_t>> content;
  connections_.with([&](Connection& connection) {
    const Result found =
        connection.run("SELECT content FROM lynearm.attachment WHERE name = $1", {name}, true);
    content.reset();
    if (found.rows() == 0) return;
    const std::string bytes = found.text(0, 0);
    content.emplace(bytes.begin(), bytes.end());
  });
  return content;
}

}  // namespace lynearm::store::postgresql
