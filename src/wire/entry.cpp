#include "wire/entry.hpp"

#include <cmath>
#include <set>
#include <utility>

#include "journal/kinds.hpp"
#include "wire/entry_reader.hpp"
#include "wire/entry_writer.hpp"
#include "wire/strict_json.hpp"

namespace lynearm::wire {
namespace {

using journal::Body;
using journal::Entry;
using journal::Foreign;

constexpr std::size_t most_entries = 1000;

std::string printed(const Json& value) {
  return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json body_object(const Body& body) {
  return std::visit(
      [](const auto& b) -> Json {
        using B = std::decay_t<decltype(b)>;
        if constexpr (std::is_same_v<B, Foreign>) {
          return Json::parse(b.text);
        } else {
          EntryWriter writer;
          B copy = b;
          describe(writer, copy);
          return std::move(writer.object);
        }
      },
      body);
}

int version_of(const Body& body) {
  return std::visit(
      [](const auto& b) {
        using B = std::decay_t<decltype(b)>;
        if constexpr (std::is_same_v<B, Foreign>) {
          return b.version;
        } else {
          return journal::Kind<B>::version;
        }
      },
      body);
}

// Reads into the type of the kind asked for; leaves `body` alone when B is of another.
template <class B>
bool read_as(std::string_view kind, int version, const Json& object, const std::string& path,
             std::vector<base::Fault>& faults, Body& body) {
  if (journal::Kind<B>::name != kind || version > journal::Kind<B>::version) return false;
  B read;
  EntryReader reader(object, path, faults);
  describe(reader, read);
  reader.finish();
  body = std::move(read);
  return true;
}

template <std::size_t... I>
bool read_known(std::index_sequence<I...>, std::string_view kind, int version,
                const Json& object, const std::string& path, std::vector<base::Fault>& faults,
                Body& body) {
  // The last alternative is Foreign, which no kind names.
  return (
      read_as<std::variant_alternative_t<I, Body>>(kind, version, object, path, faults, body) ||
      ...);
}

// What no member by itself can tell.
void whole_body_faults(const Body& body, const std::string& path,
                       std::vector<base::Fault>& faults) {
  const auto one_at_least = [&](bool there, const char* neither) {
    if (!there) faults.push_back({path, neither, "one of them at least", "", 0, 0});
  };
  if (const auto* run = std::get_if<journal::RunRead>(&body)) {
    for (const base::Fault& fault : still::faults_of(run->reading)) {
      // The others' bounds are told where they are read.
      if (fault.field != "power") continue;
      faults.push_back({path + ".power_W", fault.value, fault.accepted, "", 0, 0});
    }
  }
  if (const auto* ferment = std::get_if<journal::FermentRead>(&body)) {
    one_at_least(ferment->gravity || ferment->temperature, "neither gravity nor temperature");
  }
  if (const auto* added = std::get_if<journal::Added>(&body)) {
    one_at_least(added->mass || added->volume, "neither mass nor volume");
  }
  if (const auto* air = std::get_if<journal::AirRead>(&body)) {
    one_at_least(air->pressure || air->boiling_water, "neither pressure nor boiling water");
  }
  if (const auto* check = std::get_if<journal::MashChecked>(&body)) {
    one_at_least(check->iodine || check->gravity, "neither iodine nor gravity");
  }
  if (const auto* note = std::get_if<journal::Note>(&body)) {
    one_at_least(!note->text.empty() || !note->attachments.empty(),
                 "neither text nor attachment");
    for (std::size_t i = 0; i < note->attachments.size(); ++i) {
      const std::string& sum = note->attachments[i];
      if (sum.size() == 64 && sum.find_first_not_of("0123456789abcdef") == std::string::npos) {
        continue;
      }
      faults.push_back({fmt::format("{}.attachments[{}]", path, i), as_written(Json(sum)),
                        "the SHA-256 of a file in 64 digits 0 to 9, a to f", "", 0, 0});
    }
  }
  if (const auto* cut = std::get_if<journal::JarsAllotted>(&body)) {
    std::set<int> named;
    for (std::size_t i = 0; i < cut->pours.size(); ++i) {
      if (named.insert(cut->pours[i].jar).second) continue;
      faults.push_back({fmt::format("{}.jars[{}].jar", path, i),
                        fmt::format("{}", cut->pours[i].jar), "each jar once", "", 0, 0});
    }
    if (cut->pours.empty()) {
      faults.push_back({path + ".jars", "none", "one jar at least", "", 0, 0});
    }
  }
}

Body body_from(std::string_view kind, int version, const Json& object, const std::string& path,
               std::vector<base::Fault>& faults) {
  Body body;
  const auto before = faults.size();
  constexpr auto known = std::make_index_sequence<std::variant_size_v<Body> - 1>{};
  if (!read_known(known, kind, version, object, path, faults, body)) {
    std::string text = printed(object);
    if (text.size() > most_entry_bytes) {
      faults.push_back({path, fmt::format("{} bytes", text.size()),
                        fmt::format("at most {} bytes", most_entry_bytes), "", 0, 0});
    }
    return Foreign{std::string(kind), version, std::move(text)};
  }
  if (faults.size() == before) whole_body_faults(body, path, faults);
  return body;
}

void moment(EntryReader& reader, const char* name, journal::Moment& into, bool required) {
  const Json* const found = reader.find(name);
  if (found == nullptr) {
    if (required) reader.fault(name, "", "a date and time such as 2026-11-26T09:30:00Z");
    return;
  }
  const auto read = found->is_string()
                        ? journal::read_moment(found->get_ref<const std::string&>())
                        : std::nullopt;
  if (!read) {
    return reader.fault(name, as_written(*found),
                        "a date and time from 1970 to 2199, such as 2026-11-26T09:30:00Z");
  }
  into = *read;
}

void optional_id(EntryReader& reader, const char* name, std::optional<journal::Id>& into) {
  if (reader.find(name) == nullptr) return;
  journal::Id id;
  reader.id(name, id);
  into = id;
}

Entry entry_from(const Json& object, const std::string& path,
                 std::vector<base::Fault>& faults) {
  Entry entry;
  const auto before = faults.size();
  EntryReader reader(object, path, faults);
  reader.id("id", entry.id);
  if (entry.id.is_nil() && faults.size() == before) {
    reader.fault("id", "the nil UUID", "a UUID of its own");
  }
  optional_id(reader, "batch", entry.batch);
  reader.choice("stage", entry.stage, journal::stage_words);
  std::string kind;
  reader.text("kind", kind, 60, true);
  int version = 1;
  reader.whole("version", version, 1, 1000);
  moment(reader, "at", entry.at, true);
  if (const Json* const ahead = reader.find("clock_ahead_ms")) {
    constexpr auto most = static_cast<double>(journal::most_clock_ahead_ms);
    if (ahead->is_number_integer() && std::abs(ahead->get<double>()) <= most) {
      entry.clock_ahead_ms = ahead->get<std::int64_t>();
    } else {
      reader.fault("clock_ahead_ms", as_written(*ahead),
                   fmt::format("a whole number of ms, at most {:.0f} either way", most));
    }
  }
  moment(reader, "received", entry.received, false);
  reader.text("who", entry.who, journal::most_who, false);
  optional_id(reader, "corrects", entry.corrects);
  reader.text("typed", entry.typed, 200, false);
  const Json* const body = reader.find("body");
  if (body == nullptr || !body->is_object()) {
    reader.fault("body", body == nullptr ? "" : as_written(*body), "an object");
  } else if (!kind.empty()) {
    entry.body =
        body_from(kind, version, *body, path.empty() ? "body" : path + ".body", faults);
  }
  reader.finish();
  if (faults.size() == before) {
    if (entry.corrects == entry.id) {
      reader.fault("corrects", print(entry.id), "another entry than itself");
    }
    if (!entry.corrects && std::holds_alternative<journal::Struck>(entry.body)) {
      reader.fault("corrects", "", "the id of the entry that is struck out");
    }
  }
  return entry;
}

}  // namespace

std::string as_written(const Json& value) {
  std::string text = value.is_string() ? value.get<std::string>() : printed(value);
  constexpr std::size_t most = 60;
  if (text.size() > most) text = text.substr(0, most) + "...";
  for (char& c : text) {
    if (static_cast<unsigned char>(c) < 0x20U || c == 0x7F) c = '?';
  }
  // Cutting may have split a character: what is left of it is replaced.
  const std::string quoted = printed(Json(text));
  return quoted.substr(1, quoted.size() - 2);
}

bool is_plain(const std::string& text) {
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if ((byte < 0x20U && c != '\n' && c != '\t' && c != '\r') || byte == 0x7FU) return false;
  }
  try {
    // The library reads JSON, so its texts are UTF-8; what was made otherwise throws here.
    static_cast<void>(Json(text).dump());
  } catch (const Json::type_error&) {
    return false;
  }
  return true;
}

std::string body_json(const Body& body) { return printed(body_object(body)); }

std::string entry_json(const Entry& entry) {
  Json object;
  object["id"] = print(entry.id);
  if (entry.batch) object["batch"] = print(*entry.batch);
  object["stage"] = std::string(words(entry.stage));
  object["kind"] = std::string(kind_of(entry.body));
  object["version"] = version_of(entry.body);
  object["at"] = print(entry.at);
  object["clock_ahead_ms"] = entry.clock_ahead_ms;
  if (entry.received != journal::Moment{}) object["received"] = print(entry.received);
  if (!entry.who.empty()) object["who"] = entry.who;
  if (entry.corrects) object["corrects"] = print(*entry.corrects);
  if (!entry.typed.empty()) object["typed"] = entry.typed;
  object["body"] = body_object(entry.body);
  return printed(object);
}

Body read_body(std::string_view kind, int version, std::string_view text) {
  std::vector<base::Fault> faults;
  const std::optional<Json> object = parsed(text, "body", faults);
  Body body;
  if (object && object->is_object()) {
    body = body_from(kind, version, *object, "body", faults);
  } else if (faults.empty()) {
    faults.push_back({"body", as_written(*object), "an object", "", 0, 0});
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
  return body;
}

EntryRead read_entry(std::string_view text, const std::string& path) {
  EntryRead result;
  if (text.size() > most_entry_bytes) {
    result.faults.push_back({path, fmt::format("{} bytes", text.size()),
                             fmt::format("at most {} bytes", most_entry_bytes), "", 0, 0});
    return result;
  }
  const std::optional<Json> object = parsed(text, path, result.faults);
  if (!object) return result;
  if (!object->is_object()) {
    result.faults.push_back({path, as_written(*object), "an object", "", 0, 0});
    return result;
  }
  Entry entry = entry_from(*object, path, result.faults);
  if (result.faults.empty()) result.entry = std::move(entry);
  return result;
}

std::vector<Entry> read_entries(std::string_view text) {
  std::vector<base::Fault> faults;
  std::vector<Entry> entries;
  const std::optional<Json> object = parsed(text, "entries", faults);
  if (object) {
    const bool listed = object->is_object() && object->contains("entries") &&
                        (*object)["entries"].is_array() && object->size() == 1;
    if (!listed) {
      faults.push_back({"entries", as_written(*object), R"({"entries": [...]})", "", 0, 0});
    } else if ((*object)["entries"].size() > most_entries) {
      faults.push_back({"entries", fmt::format("{} of them", (*object)["entries"].size()),
                        fmt::format("at most {}", most_entries), "", 0, 0});
    } else {
      std::size_t place = 0;
      for (const Json& one : (*object)["entries"]) {
        const std::string path = fmt::format("entries[{}]", place++);
        if (one.is_object()) {
          entries.push_back(entry_from(one, path, faults));
        } else {
          faults.push_back({path, as_written(one), "an object", "", 0, 0});
        }
      }
    }
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
  return entries;
}

}  // namespace lynearm::wire
