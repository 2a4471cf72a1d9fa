#include "store/postgresql/connection.hpp"

#include <fmt/format.h>

#include <array>
#include <cstdlib>

#include "base/error.hpp"

namespace lynearm::store::postgresql {
namespace {

// SQLSTATE: PostgreSQL 15 manual, appendix A.
Trouble::Kind kind_of(std::string_view state) {
  const std::string_view state_class = state.substr(0, 2);
  if (state == "53100") return Trouble::Kind::full;
  if (state.empty() || state_class == "08" || state_class == "53" || state_class == "57" ||
      state == "55P03" || state_class == "40" || state_class == "28") {
    return Trouble::Kind::unreachable;
  }
  if (state_class == "22" || state_class == "23" || state_class == "54") {
    return Trouble::Kind::refused;
  }
  if (state_class == "XX") return Trouble::Kind::damaged;
  return Trouble::Kind::failed;
}

std::string sentence(Trouble::Kind kind, std::string_view state) {
  if (state == "42501" || state == "25006") return "this role may only read the house";
  switch (kind) {
    case Trouble::Kind::full:
      return "the disk of the database is full; nothing of this was kept";
    case Trouble::Kind::unreachable:
      return "the database of the house does not answer";
    case Trouble::Kind::refused:
      return "the journal would not take this; nothing of it was kept";
    case Trouble::Kind::damaged:
      return "the database of the house is damaged";
    case Trouble::Kind::failed:
      break;
  }
  return "the database of the house does not answer as it should";
}

}  // namespace

std::string Result::text(int row, int column) const {
  return {PQgetvalue(get(), row, column),
          static_cast<std::size_t>(PQgetlength(get(), row, column))};
}

std::int64_t Result::number(int row, int column) const {
  return std::strtoll(PQgetvalue(get(), row, column), nullptr, 10);
}

Connection::Connection(const std::string& uri) {
  // The uri's own words come after and so outdo these.
  const std::array keywords = {"connect_timeout",  "application_name",
                               "keepalives_idle",  "keepalives_interval",
                               "tcp_user_timeout", "dbname",
                               "client_encoding",  static_cast<const char*>(nullptr)};
  const std::array values = {"10",    "lynearm",   "10",   "5",
                             "15000", uri.c_str(), "UTF8", static_cast<const char*>(nullptr)};
  handle_.reset(PQconnectdbParams(keywords.data(), values.data(), 1));
  if (handle_ == nullptr) throw std::bad_alloc();
  if (broken()) {
    throw Trouble(Trouble::Kind::unreachable, "the database of the house does not answer",
                  PQerrorMessage(handle()));
  }
  // What the server would print on our standard error.
  PQsetNoticeProcessor(
      handle(), [](void*, const char*) {}, nullptr);
  settle();
}

void Connection::settle() {
  run_all(
      "SET synchronous_commit = on; SET lock_timeout = '10s'; "
      "SET idle_in_transaction_session_timeout = '60s'; SET search_path = pg_catalog");
  const auto require = [this](const char* setting, std::string_view value) {
    const std::string found = run(std::string("SHOW ") + setting).text(0, 0);
    if (found == value) return;
    throw base::InputError("store", fmt::format("a database with {} = {}", setting, found),
                           fmt::format("one with {} = {}", setting, value));
  };
  require("synchronous_commit", "on");
  require("fsync", "on");
  require("full_page_writes", "on");
  require("server_encoding", "UTF8");
}

// Not const: it changes the database.
// NOLINTNEXTLINE(readability-make-member-function-const)
Result Connection::run(const std::string& sql, const std::vector<Value>& values,
                       bool binary_result) {
  std::vector<const char*> texts;
  std::vector<int> lengths, formats;
  for (const Value& value : values) {
    texts.push_back(value.text ? value.text->data() : nullptr);
    lengths.push_back(value.text ? static_cast<int>(value.text->size()) : 0);
    formats.push_back(value.binary ? 1 : 0);
  }
  Result result(PQexecParams(handle(), sql.c_str(), static_cast<int>(values.size()), nullptr,
                             texts.data(), lengths.data(), formats.data(),
                             binary_result ? 1 : 0));
  const ExecStatusType status = PQresultStatus(result.get());
  if (status != PGRES_COMMAND_OK && status != PGRES_TUPLES_OK) fail(result.get());
  return result;
}

// NOLINTNEXTLINE(readability-make-member-function-const)
void Connection::run_all(const std::string& sql) {
  const Result result(PQexec(handle(), sql.c_str()));
  const ExecStatusType status = PQresultStatus(result.get());
  if (status != PGRES_COMMAND_OK && status != PGRES_TUPLES_OK) fail(result.get());
}

void Connection::fail(const PGresult* result) const {
  const char* const code =
      result == nullptr ? nullptr : PQresultErrorField(result, PG_DIAG_SQLSTATE);
  const std::string_view state = code == nullptr ? "" : code;
  const Trouble::Kind kind = broken() ? Trouble::Kind::unreachable : kind_of(state);
  throw Trouble(
      kind, sentence(kind, state),
      fmt::format("PostgreSQL {}: {}", state,
                  result == nullptr ? PQerrorMessage(handle()) : PQresultErrorMessage(result)));
}

std::string shown(const std::string& uri) {
  PQconninfoOption* const options = PQconninfoParse(uri.c_str(), nullptr);
  if (options == nullptr) return "postgresql:";
  const auto value = [options](std::string_view keyword) -> std::string {
    for (const PQconninfoOption* one = options; one->keyword != nullptr; ++one) {
      if (keyword == one->keyword && one->val != nullptr) return one->val;
    }
    return "";
  };
  std::string text = fmt::format("postgresql://{}/{}", value("host"), value("dbname"));
  PQconninfoFree(options);
  return text;
}

void refuse_place(const std::string& uri, const Trouble& trouble) {
  if (trouble.kind() != Trouble::Kind::unreachable) throw trouble;
  // The library tells it in several lines, indented.
  std::string reason;
  for (const char c : trouble.detail()) {
    if (c != '\n' && c != '\t') {
      reason += c;
    } else if (!reason.empty() && reason.back() != ' ') {
      reason += ' ';
    }
  }
  if (!reason.empty() && reason.back() == ' ') reason.pop_back();
  throw base::InputError("store", shown(uri), "a database that answers (" + reason + ")");
}

std::string array_text(const std::vector<std::optional<std::string>>& values) {
  std::string text = "{";
  for (const auto& value : values) {
    if (text.size() > 1) text += ',';
    if (!value) {
      text += "NULL";
      continue;
    }
    text += '"';
    for (const char c : *value) {
      if (c == '"' || c == '\\') text += '\\';
      text += c;
    }
    text += '"';
  }
  return text + '}';
}

Transaction::~Transaction() {
  if (open_ && PQtransactionStatus(connection_->handle()) != PQTRANS_IDLE &&
      !connection_->broken()) {
    PQclear(PQexec(connection_->handle(), "ROLLBACK"));
  }
}

void Transaction::commit() {
  // A failed transaction answers COMMIT with ROLLBACK, without an error.
  const Result result = connection_->run("COMMIT");
  open_ = false;
  if (std::string_view(PQcmdStatus(result.get())) != "COMMIT") connection_->fail(result.get());
}

}  // namespace lynearm::store::postgresql
