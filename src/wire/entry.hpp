// An entry of the journal as one JSON object: what the pages post, what the store keeps, what
// export writes, one a line. Quantities stand as numbers under keys that end in their unit.
//
// {"id":"01939f3e-...","batch":"01939f3e-...","stage":"mash","kind":"mash temperature",
//  "version":1,"at":"2026-11-26T09:30:00.000Z","clock_ahead_ms":0,"who":"...",
//  "body":{"temperature_C":65.9}}
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "journal/entry.hpp"

namespace lynearm::wire {

/// Greatest text of one entry: two documents, escaped.
inline constexpr std::size_t most_entry_bytes = 2'600'000;

/// The entry as such an object, on one line without its end. Keys that say nothing are left
/// out: no batch, no correction, not yet received, nothing typed.
[[nodiscard]] std::string entry_json(const journal::Entry& entry);

/// The body alone, as it stands under "body".
[[nodiscard]] std::string body_json(const journal::Body& body);

/// A body from its kind, version and text. A kind or a version that this program does not know
/// becomes a Foreign, letter for letter.
/// throws     InputError with every fault, its field under "body"
[[nodiscard]] journal::Body read_body(std::string_view kind, int version,
                                      std::string_view text);

/// An entry or what is wrong with it: never both, never neither.
struct EntryRead {
  std::optional<journal::Entry> entry;
  std::vector<base::Fault> faults;
};

/// One entry from its text. Does not throw: broken JSON, an unknown key or one there twice, a
/// wrong type, a figure out of bounds are faults, all together, under `path` ("entries[2]").
[[nodiscard]] EntryRead read_entry(std::string_view text, const std::string& path = "entry");

/// What a client posts: {"entries":[...]}; at most 1000 of them.
/// throws     InputError with the faults of all entries
[[nodiscard]] std::vector<journal::Entry> read_entries(std::string_view text);

/// JSON Schema (2020-12) of an entry with every kind of body.
[[nodiscard]] std::string entry_schema();

}  // namespace lynearm::wire
