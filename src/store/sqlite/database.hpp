// A connection to an SQLite file, opened in the one way this house opens them: write-ahead log,
// full synchronisation, foreign keys; each of these is asked back and held to, so that no
// connection can acknowledge what is not on the disk. Used by one thread at a time.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>

#include "store/trouble.hpp"

namespace lynearm::store::sqlite {

enum class Use {
  keep,  ///< reads and writes; makes the file when there is none
  read,  ///< only reads
};

class Database {
 public:
  /// vfs        SQLite's name of a file system; empty for the operating system's own
  /// throws     InputError at "store" when the file cannot be opened or is no SQLite database;
  ///            Trouble when the disk fails
  Database(const std::filesystem::path& file, Use use, const std::string& vfs = "");

  /// Runs statements that give no rows.
  void run(const std::string& sql);
  /// The first column of the first row, as a number; nought for none.
  [[nodiscard]] std::int64_t number(const std::string& sql);
  /// The same as text.
  [[nodiscard]] std::string text(const std::string& sql);

  [[nodiscard]] sqlite3* handle() const { return handle_.get(); }

  /// Throws what `code`, other than SQLITE_OK, means on this connection.
  [[noreturn]] void fail(int code) const;
  void check(int code) const {
    if (code != SQLITE_OK) fail(code);
  }

 private:
  struct Close {
    void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
  };
  void settle(Use use);

  std::unique_ptr<sqlite3, Close> handle_;
};

/// Rolls back unless committed. Takes the right to write at once, so that what is read inside
/// still holds when it writes.
class Transaction {
 public:
  explicit Transaction(Database& database) : database_(&database) {
    database.run("BEGIN IMMEDIATE");
  }
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;

  /// Durable when it returns.
  void commit();

 private:
  Database* database_;
  bool open_ = true;
};

}  // namespace lynearm::store::sqlite
