#include "store/sqlite/statement.hpp"

#include <algorithm>
#include <array>

namespace lynearm::store::sqlite {

Statement::Statement(Database& database, std::string_view sql) : database_(&database) {
  sqlite3_stmt* statement = nullptr;
  database.check(sqlite3_prepare_v2(database.handle(), sql.data(), static_cast<int>(sql.size()),
                                    &statement, nullptr));
  statement_.reset(statement);
}

Statement& Statement::bind(int place, std::int64_t value) {
  database_->check(sqlite3_bind_int64(statement_.get(), place, value));
  return *this;
}

Statement& Statement::bind(int place, std::string_view text) {
  // A null pointer would bind NULL instead of an empty text.
  database_->check(sqlite3_bind_text64(statement_.get(), place, text.empty() ? "" : text.data(),
                                       text.size(), SQLITE_TRANSIENT, SQLITE_UTF8));
  return *this;
}

Statement& Statement::bind(int place, std::span<const std::uint8_t> bytes) {
  database_->check(sqlite3_bind_blob64(
      statement_.get(), place, bytes.empty() ? "" : static_cast<const void*>(bytes.data()),
      bytes.size(), SQLITE_TRANSIENT));
  return *this;
}

Statement& Statement::bind(int place, const journal::Id& id) {
  return bind(place, std::span<const std::uint8_t>(id.bytes()));
}

Statement& Statement::bind(int place, const std::optional<journal::Id>& id) {
  return id ? bind(place, *id) : bind_null(place);
}

Statement& Statement::bind_null(int place) {
  database_->check(sqlite3_bind_null(statement_.get(), place));
  return *this;
}

bool Statement::step() {
  const int code = sqlite3_step(statement_.get());
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) database_->fail(code);
  return false;
}

void Statement::run() {
  const Reset reset_after(*this);
  while (step()) {
  }
}

void Statement::reset() { sqlite3_reset(statement_.get()); }

bool Statement::is_null(int column) const {
  return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
}

std::int64_t Statement::number(int column) const {
  return sqlite3_column_int64(statement_.get(), column);
}

std::string Statement::text(int column) const {
  const auto* const data =
      reinterpret_cast<const char*>(sqlite3_column_text(statement_.get(), column));
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  return data == nullptr ? std::string() : std::string(data, size);
}

std::vector<std::uint8_t> Statement::bytes(int column) const {
  const auto* const data =
      static_cast<const std::uint8_t*>(sqlite3_column_blob(statement_.get(), column));
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  return data == nullptr ? std::vector<std::uint8_t>()
                         : std::vector<std::uint8_t>(data, data + size);
}

journal::Id Statement::id(int column) const {
  const std::vector<std::uint8_t> found = bytes(column);
  std::array<std::uint8_t, 16> sixteen{};
  if (found.size() != sixteen.size()) {
    throw Trouble(Trouble::Kind::damaged, "the file of the house is damaged",
                  "an id of another size");
  }
  std::copy(found.begin(), found.end(), sixteen.begin());
  return journal::Id(sixteen);
}

std::optional<journal::Id> Statement::maybe_id(int column) const {
  return is_null(column) ? std::nullopt : std::optional(id(column));
}

}  // namespace lynearm::store::sqlite
