#include "store/sqlite/database.hpp"

#include <fmt/format.h>

#include <cerrno>

#include "base/error.hpp"
#include "store/sqlite/statement.hpp"

namespace lynearm::store::sqlite {
namespace {

// How long a connection waits for another's lock. Writers of one house are one thread of one
// process, so this is only ever used while a log is recovered or a backup begins.
constexpr int patience_ms = 10'000;

Trouble::Kind kind_of(int code, int system_error) {
  if (system_error == ENOSPC || system_error == EDQUOT) return Trouble::Kind::full;
  switch (code & 0xFF) {
    case SQLITE_FULL:
      return Trouble::Kind::full;
    case SQLITE_CONSTRAINT:
    case SQLITE_TOOBIG:
    case SQLITE_MISMATCH:
      return Trouble::Kind::refused;
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return Trouble::Kind::damaged;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return Trouble::Kind::unreachable;
    default:
      return Trouble::Kind::failed;
  }
}

std::string sentence(Trouble::Kind kind) {
  switch (kind) {
    case Trouble::Kind::full:
      return "the disk of the house is full; nothing of this was kept";
    case Trouble::Kind::refused:
      return "the journal would not take this; nothing of it was kept";
    case Trouble::Kind::damaged:
      return "the file of the house is damaged";
    case Trouble::Kind::unreachable:
      return "the file of the house is held by another program";
    case Trouble::Kind::failed:
      break;
  }
  return "the disk of the house does not answer as it should";
}

}  // namespace

Database::Database(const std::filesystem::path& file, Use use, const std::string& vfs) {
  const int flags =
      use == Use::keep ? SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE : SQLITE_OPEN_READONLY;
  sqlite3* handle = nullptr;
  const int code = sqlite3_open_v2(file.c_str(), &handle, flags | SQLITE_OPEN_NOMUTEX,
                                   vfs.empty() ? nullptr : vfs.c_str());
  handle_.reset(handle);
  if (handle == nullptr) throw std::bad_alloc();
  sqlite3_extended_result_codes(handle, 1);
  if (code != SQLITE_OK) {
    if (kind_of(code, sqlite3_system_errno(handle)) == Trouble::Kind::full) fail(code);
    throw base::InputError("store", file.string(), "a file that can be opened");
  }
  try {
    settle(use);
  } catch (const Trouble& trouble) {
    if (trouble.kind() != Trouble::Kind::damaged) throw;
    throw base::InputError("store", file.string(), "an SQLite database that is whole");
  }
}

void Database::settle(Use use) {
  check(sqlite3_busy_timeout(handle(), patience_ms));
  check(sqlite3_db_config(handle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr));
  if (use == Use::keep) run("PRAGMA journal_mode = WAL");
  // The log is copied back by one alone, who minds how that ends: log.hpp.
  run("PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF; "
      "PRAGMA wal_autocheckpoint = 0");
  constexpr std::int64_t full = 2;
  base::ensure(number("PRAGMA synchronous") == full, "every connection synchronises in full");
  base::ensure(number("PRAGMA foreign_keys") == 1, "every connection minds foreign keys");
  // One that only reads takes the file as it is: an empty one, or a copy, may have no log.
  base::ensure(use == Use::read || text("PRAGMA journal_mode") == "wal",
               "every connection that keeps uses the write-ahead log");
}

void Database::fail(int code) const {
  const Trouble::Kind kind = kind_of(code, sqlite3_system_errno(handle()));
  throw Trouble(kind, sentence(kind),
                fmt::format("SQLite {}: {}", sqlite3_extended_errcode(handle()),
                            sqlite3_errmsg(handle())));
}

// Not const: it changes the database.
// NOLINTNEXTLINE(readability-make-member-function-const)
void Database::run(const std::string& sql) {
  check(sqlite3_exec(handle(), sql.c_str(), nullptr, nullptr, nullptr));
}

std::int64_t Database::number(const std::string& sql) {
  Statement statement(*this, sql);
  return statement.step() ? statement.number(0) : 0;
}

std::string Database::text(const std::string& sql) {
  Statement statement(*this, sql);
  return statement.step() ? statement.text(0) : std::string();
}

Transaction::~Transaction() {
  // Some faults (a full disk) end the transaction by themselves; then there is nothing to undo.
  if (open_ && sqlite3_get_autocommit(database_->handle()) == 0) {
    sqlite3_exec(database_->handle(), "ROLLBACK", nullptr, nullptr, nullptr);
  }
}

void Transaction::commit() {
  database_->run("COMMIT");
  open_ = false;
}

}  // namespace lynearm::store::sqlite
