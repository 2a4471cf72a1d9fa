#include "store/sqlite/log.hpp"

#include <utility>

#include "store/sqlite/statement.hpp"

namespace lynearm::store::sqlite {

void Log::tend(Database& database) {
  if (trusted_ && pages_ < long_pages_) return;
  // Where there is nothing to mend, readers are left in peace and what they still need stays.
  Statement copy(database, trusted_ ? "PRAGMA wal_checkpoint(PASSIVE)"
                                    : "PRAGMA wal_checkpoint(TRUNCATE)");
  const bool mends = !std::exchange(trusted_, false);  // until this has gone well
  const bool busy = copy.step() && copy.number(0) != 0;
  if (mends && busy) {
    throw Trouble(Trouble::Kind::failed, "the disk of the house does not answer as it should",
                  "the log cannot be begun anew while it is read");
  }
  pages_ = 0;
  trusted_ = true;
}

Keeping::Keeping(Database& database, Log& log)
    : database_(&database), log_(&log), lock_(log.mutex_) {
  log.tend(database);
  sqlite3_wal_hook(
      database.handle(),
      [](void* pages, sqlite3*, const char*, int now) {
        *static_cast<int*>(pages) = now;
        return SQLITE_OK;
      },
      &log.pages_);
  transaction_.emplace(database);
}

Keeping::~Keeping() {
  transaction_.reset();  // rolls back while the others still wait
  sqlite3_wal_hook(database_->handle(), nullptr, nullptr);
}

void Keeping::commit() {
  log_->trusted_ = false;
  transaction_->commit();
  log_->trusted_ = true;
}

}  // namespace lynearm::store::sqlite
