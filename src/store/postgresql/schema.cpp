#include "store/postgresql/schema.hpp"

#include <fmt/format.h>

#include <optional>

#include "base/error.hpp"
#include "store/migration.hpp"

namespace lynearm::store::postgresql {
namespace {

// "Lynm": only one of our servers at a time brings a schema up to date.
constexpr std::int64_t migration_lock = 0x4C796E6D;

std::int64_t newest() { return static_cast<std::int64_t>(postgresql_migrations().size()); }

// Nought for a database without the schema.
std::int64_t version_of(Connection& connection, const std::string& uri) {
  if (connection.run("SELECT to_regclass('lynearm.version')").is_null(0, 0)) return 0;
  const std::int64_t version =
      connection.run("SELECT coalesce(max(version), 0) FROM lynearm.version").number(0, 0);
  if (version > newest()) {
    throw base::InputError(
        "store", shown(uri),
        fmt::format(
            "a house of version {} or earlier: this one, of version {}, was written by a "
            "newer Lynearm",
            newest(), version));
  }
  return version;
}

void migrate(Connection& connection, const std::string& uri) {
  Transaction transaction(connection);
  connection.run("SELECT pg_advisory_xact_lock($1)", {migration_lock});
  connection.run_all(
      "CREATE SCHEMA IF NOT EXISTS lynearm; "
      "CREATE TABLE IF NOT EXISTS lynearm.version (version integer NOT NULL)");
  for (std::int64_t version = version_of(connection, uri) + 1; version <= newest(); ++version) {
    connection.run_all(
        std::string(postgresql_migrations()[static_cast<std::size_t>(version - 1)]));
    connection.run("INSERT INTO lynearm.version VALUES ($1)", {version});
  }
  transaction.commit();
}

}  // namespace

void bring_up_to_date(Connection& connection, const std::string& uri) {
  try {
    if (version_of(connection, uri) != newest()) migrate(connection, uri);
    const Result may = connection.run(
        "SELECT has_table_privilege('lynearm.entry', 'INSERT') AND "
        "has_table_privilege('lynearm.device', 'SELECT, INSERT, UPDATE')");
    if (may.text(0, 0) == "t") return;
  } catch (const Trouble& trouble) {
    if (trouble.kind() != Trouble::Kind::failed) throw;
  }
  throw base::InputError("store", shown(uri),
                         "a database in which this role may keep a house, not only read");
}

void require_up_to_date(Connection& connection, const std::string& uri) {
  std::int64_t version = 0;
  try {
    version = version_of(connection, uri);
  } catch (const Trouble& trouble) {
    if (trouble.kind() != Trouble::Kind::failed) throw;
  }
  if (version == newest()) return;
  throw base::InputError("store", shown(uri),
                         fmt::format("the database of a house of version {} that this role may "
                                     "read",
                                     newest()));
}

}  // namespace lynearm::store::postgresql
