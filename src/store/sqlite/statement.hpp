// A prepared statement: values in by place (from 1), columns out by place (from 0).
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "journal/id.hpp"
#include "store/sqlite/database.hpp"

namespace lynearm::store::sqlite {

class Statement {
 public:
  /// database   lives longer than this
  Statement(Database& database, std::string_view sql);

  // Texts and bytes are copied.
  Statement& bind(int place, std::int64_t value);
  Statement& bind(int place, std::string_view text);
  Statement& bind(int place, std::span<const std::uint8_t> bytes);
  Statement& bind(int place, const journal::Id& id);
  Statement& bind(int place, const std::optional<journal::Id>& id);
  Statement& bind_null(int place);

  /// returns    false when there is no further row
  bool step();
  /// Runs to its end and stands ready for the next values.
  void run();
  void reset();

  [[nodiscard]] bool is_null(int column) const;
  [[nodiscard]] std::int64_t number(int column) const;
  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] std::vector<std::uint8_t> bytes(int column) const;
  /// throws     Trouble (damaged) when the column holds no UUID
  [[nodiscard]] journal::Id id(int column) const;
  [[nodiscard]] std::optional<journal::Id> maybe_id(int column) const;

 private:
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };
  Database* database_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

/// Resets a statement when it goes, so that an exception leaves no reader open.
class Reset {
 public:
  explicit Reset(Statement& statement) : statement_(&statement) {}
  ~Reset() { statement_->reset(); }
  Reset(const Reset&) = delete;
  Reset& operator=(const Reset&) = delete;

 private:
  Statement* statement_;
};

}  // namespace lynearm::store::sqlite
