#include "store/row.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "journal/kinds.hpp"
#include "store/trouble.hpp"
#include "wire/entry.hpp"

namespace lynearm::store {
namespace {

int version_of(const journal::Body& body) {
  return std::visit(
      [](const auto& b) {
        using B = std::decay_t<decltype(b)>;
        if constexpr (std::is_same_v<B, journal::Foreign>) {
          return b.version;
        } else {
          return journal::Kind<B>::version;
        }
      },
      body);
}

void refuse_nul(const std::string& text, const std::string& path, const char* field) {
  if (text.find('\0') == std::string::npos) return;
  throw base::InputError(path + "." + field, "a text with a NUL in it", "text");
}

}  // namespace

Row row_of(const journal::Entry& entry, std::optional<journal::Moment> received,
           const std::string& path) {
  Row row;
  row.id = entry.id;
  row.batch = entry.batch;
  row.stage = words(entry.stage);
  row.kind = kind_of(entry.body);
  row.version = version_of(entry.body);
  row.at_ms = entry.at.milliseconds;
  row.clock_ahead_ms = entry.clock_ahead_ms;
  row.received_ms = received.value_or(entry.received).milliseconds;
  row.who = entry.who;
  row.corrects = entry.corrects;
  row.typed = entry.typed;
  row.body = wire::body_json(entry.body);
  refuse_nul(row.kind, path, "kind");
  refuse_nul(row.who, path, "who");
  refuse_nul(row.typed, path, "typed");
  refuse_nul(row.body, path, "body");
  return row;
}

journal::Entry entry_of(const Row& row) {
  const auto damaged = [&row](const std::string& detail) {
    return Trouble(Trouble::Kind::damaged,
                   fmt::format("entry {} of the journal (number {}) cannot be read",
                               print(row.id), row.sequence),
                   detail);
  };
  journal::Entry entry;
  entry.id = row.id;
  entry.batch = row.batch;
  const auto stage = journal::stage_of(row.stage);
  if (!stage) throw damaged("no stage: " + row.stage);
  entry.stage = *stage;
  entry.at = {row.at_ms};
  entry.clock_ahead_ms = row.clock_ahead_ms;
  entry.received = {row.received_ms};
  entry.who = row.who;
  entry.corrects = row.corrects;
  entry.typed = row.typed;
  try {
    entry.body = wire::read_body(row.kind, row.version, row.body);
  } catch (const base::InputError& error) {
    throw damaged(error.what());
  }
  return entry;
}

bool same(const Row& a, const Row& b) {
  return a.id == b.id && a.batch == b.batch && a.stage == b.stage && a.kind == b.kind &&
         a.version == b.version && a.at_ms == b.at_ms && a.clock_ahead_ms == b.clock_ahead_ms &&
         a.who == b.who && a.corrects == b.corrects && a.typed == b.typed && a.body == b.body;
}

}  // namespace lynearm::store
