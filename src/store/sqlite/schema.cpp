#include "store/sqlite/schema.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "store/migration.hpp"

namespace lynearm::store::sqlite {
namespace {

std::int64_t newest() { return static_cast<std::int64_t>(sqlite_migrations().size()); }

[[noreturn]] void refuse(const std::filesystem::path& file, const std::string& accepted) {
  throw base::InputError("store", file.string(), accepted);
}

// The version of one of our files; nought for one that is empty.
std::int64_t version_of(Database& database, const std::filesystem::path& file) {
  const std::int64_t version = database.number("PRAGMA user_version");
  const bool ours = database.number("PRAGMA application_id") == application_id;
  const bool empty = database.number("SELECT count(*) FROM sqlite_schema") == 0;
  if (!ours && !empty) {
    refuse(file, "a file of Lynearm: this one is another program's");
  }
  if (version > newest()) {
    refuse(file, fmt::format("a file of version {} or earlier: this one, of version {}, was "
                             "written by a newer Lynearm",
                             newest(), version));
  }
  return empty ? 0 : version;
}

}  // namespace

void bring_up_to_date(Database& database, const std::filesystem::path& file) {
  if (version_of(database, file) == newest()) return;
  Transaction transaction(database);
  // Asked again inside: another process may just have done it.
  for (std::int64_t version = version_of(database, file) + 1; version <= newest(); ++version) {
    database.run(std::string(sqlite_migrations()[static_cast<std::size_t>(version - 1)]));
    database.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}",
                             application_id, version));
  }
  transaction.commit();
}

void require_up_to_date(Database& database, const std::filesystem::path& file) {
  const std::int64_t version = version_of(database, file);
  if (version == newest()) return;
  refuse(file, version == 0 ? std::string("a house that was opened once: this file is empty")
                            : fmt::format("a file of version {}: this one, of version {}, is "
                                          "brought up to date when the house is opened",
                                          newest(), version));
}

}  // namespace lynearm::store::sqlite
