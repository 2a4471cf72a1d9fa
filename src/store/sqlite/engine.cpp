#include "store/sqlite/engine.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "store/sqlite/schema.hpp"

namespace lynearm::store::sqlite {
namespace {

constexpr const char* columns =
    "sequence, id, batch, stage, kind, version, at_ms, clock_ahead_ms, received_ms, who, "
    "corrects, typed, body";

Row row_from(const Statement& found) {
  Row row;
  row.sequence = found.number(0);
  row.id = found.id(1);
  row.batch = found.maybe_id(2);
  row.stage = found.text(3);
  row.kind = found.text(4);
  row.version = static_cast<int>(found.number(5));
  row.at_ms = found.number(6);
  row.clock_ahead_ms = found.number(7);
  row.received_ms = found.number(8);
  row.who = found.text(9);
  row.corrects = found.maybe_id(10);
  row.typed = found.text(11);
  row.body = found.text(12);
  return row;
}

std::string condition(Select::Of of) {
  switch (of) {
    case Select::Of::batch:
      return "batch = ?3 AND ";
    case Select::Of::house:
      return "batch IS NULL AND ";
    case Select::Of::all:
      break;
  }
  return "";
}

Database opened(const std::filesystem::path& file, Use use, const std::string& vfs) {
  Database database(file, use, vfs);
  if (use == Use::keep) {
    bring_up_to_date(database, file);
  } else {
    require_up_to_date(database, file);
  }
  return database;
}

}  // namespace

Readers::Loan::~Loan() {
  const std::lock_guard lock(from_->mutex_);
  from_->idle_.push_back(std::move(database_));
}

Readers::Loan Readers::lend() {
  {
    const std::lock_guard lock(mutex_);
    if (!idle_.empty()) {
      std::unique_ptr<Database> database = std::move(idle_.back());
      idle_.pop_back();
      return {*this, std::move(database)};
    }
  }
  return {*this, std::make_unique<Database>(file_, Use::read, vfs_)};
}

// The one connection that writes, with its statements.
struct SqliteEngine::Writer {
  Writer(const std::filesystem::path& file, const std::string& vfs)
      : database(opened(file, Use::keep, vfs)),
        find(database, fmt::format("SELECT {} FROM entry WHERE id = ?1", columns)),
        last(database, "SELECT max(sequence) FROM entry"),
        insert(database,
               fmt::format("INSERT INTO entry ({}) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, "
                           "?8, ?9, ?10, ?11, ?12, ?13)",
                           columns)) {}
  Database database;
  Statement find, last, insert;
};

class SqliteEngine::Write final : public Engine::Writing {
 public:
  Write(Writer& writer, Log& log) : writer_(&writer), keeping_(writer.database, log) {}

  std::vector<Row> found(std::span<const journal::Id> ids) override {
    std::vector<Row> rows;
    for (const journal::Id& id : ids) {
      const Reset reset(writer_->find);
      writer_->find.bind(1, id);
      if (writer_->find.step()) rows.push_back(row_from(writer_->find));
    }
    return rows;
  }

  Sequence last() override {
    const Reset reset(writer_->last);
    return writer_->last.step() ? writer_->last.number(0) : 0;
  }

  void add(std::span<const Row> rows) override {
    for (const Row& row : rows) {
      writer_->insert.bind(1, row.sequence)
          .bind(2, row.id)
          .bind(3, row.batch)
          .bind(4, row.stage)
          .bind(5, row.kind)
          .bind(6, std::int64_t{row.version})
          .bind(7, row.at_ms)
          .bind(8, row.clock_ahead_ms)
          .bind(9, row.received_ms)
          .bind(10, row.who)
          .bind(11, row.corrects)
          .bind(12, row.typed)
          .bind(13, row.body)
          .run();
    }
  }

  void commit() override { keeping_.commit(); }

 private:
  Writer* writer_;
  Keeping keeping_;
};

SqliteEngine::SqliteEngine(const std::filesystem::path& file, Use use, const std::string& vfs,
                           int log_pages)
    : log_(std::make_shared<Log>(log_pages)),
      writer_(use == Use::keep ? std::make_unique<Writer>(file, vfs) : nullptr),
      readers_(file, vfs) {
  if (use == Use::read) require_up_to_date(*readers_.lend(), file);
}

SqliteEngine::~SqliteEngine() = default;

std::unique_ptr<Engine::Writing> SqliteEngine::begin() {
  base::ensure(writer_ != nullptr, "a house opened to be read is not written to");
  return std::make_unique<Write>(*writer_, *log_);
}

void SqliteEngine::read(const Select& select, const std::function<bool(const Row&)>& take) {
  const Readers::Loan reader = readers_.lend();
  Statement statement(
      *reader, fmt::format("SELECT {} FROM entry WHERE {}sequence > ?1 ORDER BY sequence "
                           "LIMIT ?2",
                           columns, condition(select.of)));
  statement.bind(1, select.after).bind(2, select.most);
  if (select.of == Select::Of::batch) statement.bind(3, select.batch);
  while (statement.step() && take(row_from(statement))) {
  }
}

std::vector<journal::Id> SqliteEngine::batches() {
  const Readers::Loan reader = readers_.lend();
  Statement statement(*reader,
                      "SELECT batch FROM entry WHERE batch IS NOT NULL GROUP BY batch "
                      "ORDER BY min(sequence)");
  std::vector<journal::Id> found;
  while (statement.step()) found.push_back(statement.id(0));
  return found;
}

Sequence SqliteEngine::last() {
  const Readers::Loan reader = readers_.lend();
  return (*reader).number("SELECT max(sequence) FROM entry");
}

}  // namespace lynearm::store::sqlite
