// The journal in an SQLite file.
#pragma once

#include <filesystem>
#include <mutex>
#include <string>
#include <vector>

#include "store/engine.hpp"
#include "store/sqlite/database.hpp"
#include "store/sqlite/log.hpp"
#include "store/sqlite/statement.hpp"

namespace lynearm::store::sqlite {

/// Connections that only read, lent to one thread at a time. The log lets them read while
/// somebody writes.
class Readers {
 public:
  Readers(std::filesystem::path file, std::string vfs)
      : file_(std::move(file)), vfs_(std::move(vfs)) {}

  class Loan {
   public:
    Loan(Readers& from, std::unique_ptr<Database> database)
        : from_(&from), database_(std::move(database)) {}
    ~Loan();
    Loan(const Loan&) = delete;
    Loan& operator=(const Loan&) = delete;
    Database& operator*() const { return *database_; }

   private:
    Readers* from_;
    std::unique_ptr<Database> database_;
  };
  [[nodiscard]] Loan lend();

 private:
  std::filesystem::path file_;
  std::string vfs_;
  std::mutex mutex_;
  std::vector<std::unique_ptr<Database>> idle_;
};

class SqliteEngine final : public Engine {
 public:
  /// use        with Use::read, begin() throws
  /// vfs        as Database takes it
  /// log_pages  after so many the log is copied back into the file
  SqliteEngine(const std::filesystem::path& file, Use use, const std::string& vfs = "",
               int log_pages = Log::usual_pages);
  ~SqliteEngine() override;

  /// For others of this process that write into the file.
  [[nodiscard]] std::shared_ptr<Log> log() const { return log_; }

  [[nodiscard]] std::unique_ptr<Writing> begin() override;
  void read(const Select& select, const std::function<bool(const Row&)>& take) override;
  [[nodiscard]] std::vector<journal::Id> batches() override;
  [[nodiscard]] Sequence last() override;

 private:
  class Write;
  struct Writer;
  std::shared_ptr<Log> log_;
  std::unique_ptr<Writer> writer_;  // none when it only reads
  Readers readers_;
};

}  // namespace lynearm::store::sqlite
