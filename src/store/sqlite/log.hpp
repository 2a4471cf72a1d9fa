// Whether the write-ahead log can be trusted. When the system fails to synchronise it, it may
// forget what it was to write and go on as if nothing had been (Linux does): the log then reads
// whole but has a hole on the disk, behind which nothing would be found after a crash. So after
// any failure nothing is acknowledged before all of the log has been copied into the file, the
// file synchronised, and the log begun anew.
//
// One for all connections of a file that write. None of them copies the log by itself: a
// failure in that would go unheard.
#pragma once

#include <mutex>
#include <optional>

#include "store/sqlite/database.hpp"

namespace lynearm::store::sqlite {

class Log {
 public:
  /// SQLite's own measure of a log that is long enough to be copied back.
  static constexpr int usual_pages = 1000;
  explicit Log(int long_pages = usual_pages) : long_pages_(long_pages) {}

 private:
  friend class Keeping;
  /// Copies what is in the log into the file, when that is due. Outside a transaction.
  /// throws     Trouble while a log that is not trusted cannot be copied
  void tend(Database& database);

  std::mutex mutex_;  // held by whoever writes: all of them are in this process
  bool trusted_ = true;
  int pages_ = 0;
  int long_pages_;
};

/// A transaction that writes, on a log that is trusted. Rolls back unless committed.
class Keeping {
 public:
  Keeping(Database& database, Log& log);
  ~Keeping();
  Keeping(const Keeping&) = delete;
  Keeping& operator=(const Keeping&) = delete;

  /// Durable when it returns.
  void commit();

 private:
  Database* database_;
  Log* log_;
  std::unique_lock<std::mutex> lock_;
  std::optional<Transaction> transaction_;
};

}  // namespace lynearm::store::sqlite
