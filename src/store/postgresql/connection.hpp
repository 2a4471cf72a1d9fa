// A connection to a PostgreSQL server, opened in the one way this house opens them: every
// commit waits for the disk, which is asked back, and the server itself must synchronise. Used
// by one thread at a time.
#pragma once

#include <libpq-fe.h>

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "store/trouble.hpp"

namespace lynearm::store::postgresql {

/// A value for a place $1, $2, ... in a statement.
struct Value {
  std::optional<std::string> text;  ///< none is NULL
  bool binary = false;

  Value() = default;
  Value(std::string value) : text(std::move(value)) {}
  Value(const char* value) : text(value) {}
  Value(std::int64_t value) : text(std::to_string(value)) {}
};

class Result {
 public:
  explicit Result(PGresult* result) : result_(result, PQclear) {}
  [[nodiscard]] PGresult* get() const { return result_.get(); }
  [[nodiscard]] int rows() const { return PQntuples(get()); }
  [[nodiscard]] bool is_null(int row, int column) const {
    return PQgetisnull(get(), row, column) != 0;
  }
  /// The bytes of the field, in the format asked for.
  [[nodiscard]] std::string text(int row, int column) const;
  [[nodiscard]] std::int64_t number(int row, int column) const;

 private:
  std::shared_ptr<PGresult> result_;
};

class Connection {
 public:
  /// uri        "postgresql://..." as libpq takes it
  /// throws     Trouble (unreachable) when the server does not answer or turns us away;
  ///            InputError at "store" when the text is none, or the server's settings do not
  ///            keep what was acknowledged
  explicit Connection(const std::string& uri);

  /// throws     Trouble of the kind that the server's answer means
  Result run(const std::string& sql, const std::vector<Value>& values = {},
             bool binary_result = false);
  /// Several statements without values.
  void run_all(const std::string& sql);

  [[nodiscard]] bool broken() const { return PQstatus(handle()) != CONNECTION_OK; }
  [[nodiscard]] PGconn* handle() const { return handle_.get(); }

  /// Throws what the result, or the connection when there is none, tells.
  [[noreturn]] void fail(const PGresult* result) const;

 private:
  void settle();
  struct Finish {
    void operator()(PGconn* connection) const { PQfinish(connection); }
  };
  std::unique_ptr<PGconn, Finish> handle_;
};

/// The connection string without its password, for messages.
[[nodiscard]] std::string shown(const std::string& uri);

/// Where nobody was reached at the beginning, the place was told wrongly or is not up.
/// throws     InputError at "store" for what is unreachable, with the reason; else the trouble
[[noreturn]] void refuse_place(const std::string& uri, const Trouble& trouble);

/// "{...}" as PostgreSQL reads an array; nothing is NULL.
[[nodiscard]] std::string array_text(const std::vector<std::optional<std::string>>& values);

/// Rolls back unless committed.
class Transaction {
 public:
  explicit Transaction(Connection& connection) : connection_(&connection) {
    connection.run("BEGIN");
  }
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  Connection* connection_;
  bool open_ = true;
};

}  // namespace lynearm::store::postgresql
