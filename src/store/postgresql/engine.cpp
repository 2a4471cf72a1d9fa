#include "store/postgresql/engine.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "base/error.hpp"
#include "store/postgresql/schema.hpp"

namespace lynearm::store::postgresql {
namespace {

constexpr const char* columns =
    "sequence, id, batch, stage, kind, version, at_ms, clock_ahead_ms, received_ms, who, "
    "corrects, typed, body";
constexpr const char* kept_channel = "lynearm_kept";
// "Lynk": whoever keeps entries holds it until its transaction ends.
constexpr std::int64_t keeping_lock = 0x4C796E6B;
constexpr std::size_t piece = 500;  // rows in one statement

journal::Id id_from(const std::string& text) {
  const auto id = journal::read_id(text);
  if (!id)
    throw Trouble(Trouble::Kind::damaged, "the database of the house is damaged",
                  "no id: " + text);
  return *id;
}

Row row_from(const Result& found, int at) {
  const auto maybe_id = [&](int column) -> std::optional<journal::Id> {
    if (found.is_null(at, column)) return std::nullopt;
    return id_from(found.text(at, column));
  };
  Row row;
  row.sequence = found.number(at, 0);
  row.id = id_from(found.text(at, 1));
  row.batch = maybe_id(2);
  row.stage = found.text(at, 3);
  row.kind = found.text(at, 4);
  row.version = static_cast<int>(found.number(at, 5));
  row.at_ms = found.number(at, 6);
  row.clock_ahead_ms = found.number(at, 7);
  row.received_ms = found.number(at, 8);
  row.who = found.text(at, 9);
  row.corrects = maybe_id(10);
  row.typed = found.text(at, 11);
  row.body = found.text(at, 12);
  return row;
}

std::optional<std::string> printed(const std::optional<journal::Id>& id) {
  return id ? std::optional(print(*id)) : std::nullopt;
}

// Each column as an array, for one statement that adds all the rows.
std::vector<Value> arrays_of(std::span<const Row> rows) {
  std::vector<std::vector<std::optional<std::string>>> arrays(13);
  for (const Row& row : rows) {
    std::size_t column = 0;
    const auto put = [&](std::optional<std::string> value) {
      arrays[column++].push_back(std::move(value));
    };
    put(std::to_string(row.sequence));
    put(print(row.id));
    put(printed(row.batch));
    put(row.stage);
    put(row.kind);
    put(std::to_string(row.version));
    put(std::to_string(row.at_ms));
    put(std::to_string(row.clock_ahead_ms));
    put(std::to_string(row.received_ms));
    put(row.who);
    put(printed(row.corrects));
    put(row.typed);
    put(row.body);
  }
  std::vector<Value> values;
  for (const auto& array : arrays) values.emplace_back(array_text(array));
  return values;
}

}  // namespace

std::unique_ptr<Connection> Lender::take() {
  const std::lock_guard lock(mutex_);
  if (idle_.empty()) return nullptr;
  std::unique_ptr<Connection> connection = std::move(idle_.back());
  idle_.pop_back();
  return connection;
}

void Lender::give(std::unique_ptr<Connection> connection) {
  if (connection->broken()) return;
  const std::lock_guard lock(mutex_);
  idle_.push_back(std::move(connection));
}

class PostgresqlEngine::Write final : public Engine::Writing {
 public:
  explicit Write(Connection& connection) : connection_(&connection), transaction_(connection) {
    connection.run("SELECT pg_advisory_xact_lock($1)", {keeping_lock});
  }

  std::vector<Row> found(std::span<const journal::Id> ids) override {
    std::vector<Row> rows;
    for (std::size_t from = 0; from < ids.size(); from += piece) {
      std::vector<std::optional<std::string>> texts;
      for (const journal::Id& id : ids.subspan(from, std::min(piece, ids.size() - from))) {
        texts.emplace_back(print(id));
      }
      const Result result = connection_->run(
          fmt::format("SELECT {} FROM lynearm.entry WHERE id = ANY($1::uuid[])", columns),
          {array_text(texts)});
      for (int at = 0; at < result.rows(); ++at) rows.push_back(row_from(result, at));
    }
    return rows;
  }

  Sequence last() override {
    return connection_->run("SELECT coalesce(max(sequence), 0) FROM lynearm.entry")
        .number(0, 0);
  }

  void add(std::span<const Row> rows) override {
    for (std::size_t from = 0; from < rows.size(); from += piece) {
      connection_->run(
          fmt::format("INSERT INTO lynearm.entry ({}) SELECT * FROM unnest($1::bigint[], "
                      "$2::uuid[], $3::uuid[], $4::text[], $5::text[], $6::integer[], "
                      "$7::bigint[], $8::bigint[], $9::bigint[], $10::text[], $11::uuid[], "
                      "$12::text[], $13::json[])",
                      columns),
          arrays_of(rows.subspan(from, std::min(piece, rows.size() - from))));
    }
    if (!rows.empty()) {
      connection_->run("SELECT pg_notify($1, $2)",
                       {kept_channel, std::to_string(rows.back().sequence)});
    }
  }

  void commit() override { transaction_.commit(); }

 private:
  Connection* connection_;
  Transaction transaction_;
};

PostgresqlEngine::PostgresqlEngine(const std::string& uri, bool only_read)
    : uri_(uri), only_read_(only_read), readers_(uri) {
  try {
    auto connection = std::make_unique<Connection>(uri);
    if (only_read) {
      require_up_to_date(*connection, uri);
    } else {
      bring_up_to_date(*connection, uri);
      writer_ = std::move(connection);
    }
  } catch (const Trouble& trouble) {
    refuse_place(uri, trouble);
  }
}

PostgresqlEngine::~PostgresqlEngine() = default;

std::unique_ptr<Engine::Writing> PostgresqlEngine::begin() {
  base::ensure(!only_read_, "a house opened to be read is not written to");
  if (writer_ != nullptr) {
    try {
      return std::make_unique<Write>(*writer_);
    } catch (const Trouble& trouble) {
      // Nothing has been given to it yet: the server may only have started anew.
      const bool broken = writer_->broken();
      if (broken) writer_.reset();
      if (!broken || trouble.kind() != Trouble::Kind::unreachable) throw;
    }
  }
  writer_ = std::make_unique<Connection>(uri_);
  return std::make_unique<Write>(*writer_);
}

void PostgresqlEngine::read(const Select& select, const std::function<bool(const Row&)>& take) {
  std::string where = "sequence > $1";
  if (select.of == Select::Of::house) where += " AND batch IS NULL";
  if (select.of == Select::Of::batch) where += " AND batch = $2";
  // Where the connection breaks half way, the next one goes on behind the last row taken.
  Sequence after = select.after;
  std::int64_t left = select.most;
  readers_.with([&](Connection& connection) {
    std::vector<Value> values = {after};
    if (select.of == Select::Of::batch) values.emplace_back(print(select.batch));
    const std::string limit = left < 0 ? "" : fmt::format(" LIMIT {}", left);
    // Cursor and all in one transaction: one view, however long it takes.
    Transaction transaction(connection);
    connection.run(
        fmt::format("DECLARE entries NO SCROLL CURSOR FOR SELECT {} FROM lynearm.entry "
                    "WHERE {} ORDER BY sequence{}",
                    columns, where, limit),
        values);
    for (;;) {
      const Result rows = connection.run(fmt::format("FETCH {} FROM entries", piece));
      for (int at = 0; at < rows.rows(); ++at) {
        const Row row = row_from(rows, at);
        after = row.sequence;
        if (left > 0) --left;
        if (!take(row)) return;
      }
      if (rows.rows() < static_cast<int>(piece)) break;
    }
    transaction.commit();
  });
}

std::vector<journal::Id> PostgresqlEngine::batches() {
  std::vector<journal::Id> found;
  readers_.with([&](Connection& connection) {
    const Result rows = connection.run(
        "SELECT batch FROM lynearm.entry WHERE batch IS NOT NULL GROUP BY batch "
        "ORDER BY min(sequence)");
    found.clear();
    for (int at = 0; at < rows.rows(); ++at) found.push_back(id_from(rows.text(at, 0)));
  });
  return found;
}

Sequence PostgresqlEngine::last() {
  Sequence last = 0;
  readers_.with([&](Connection& connection) {
    last = connection.run("SELECT coalesce(max(sequence), 0) FROM lynearm.entry").number(0, 0);
  });
  return last;
}

void PostgresqlEngine::listen(std::function<void(Sequence)> told) {
  listener_ = std::make_unique<Listener>(
      uri_, kept_channel,
      [told](const std::string& payload) { told(std::strtoll(payload.c_str(), nullptr, 10)); },
      [this, told] {
        // An empty journal has nothing that could have been missed.
        if (const Sequence there = last(); there > 0) told(there);
      });
}

}  // namespace lynearm::store::postgresql
