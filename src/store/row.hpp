// An entry as a row of the table `entry`: what both databases hold, column for column. The body
// stands as the JSON text that wire/entry.hpp writes, so a row can be read with any tool, and
// so can kinds that this program does not know.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "journal/entry.hpp"

namespace lynearm::store {

/// A place in the journal of one house: 1, 2, 3, ... in the order of keeping, without gaps.
using Sequence = std::int64_t;

struct Row {
  Sequence sequence = 0;  ///< nought until kept
  journal::Id id;
  std::optional<journal::Id> batch;
  std::string stage, kind;
  int version = 1;
  std::int64_t at_ms = 0;
  std::int64_t clock_ahead_ms = 0;
  std::int64_t received_ms = 0;
  std::string who;
  std::optional<journal::Id> corrects;
  std::string typed;
  std::string body;  ///< JSON, one object
};

/// received   nothing: as the entry itself says
/// throws     InputError where a text holds a NUL, which no database keeps; its field under
/// `path`
[[nodiscard]] Row row_of(const journal::Entry& entry, std::optional<journal::Moment> received,
                         const std::string& path);

/// throws     Trouble (damaged) when the row cannot be read as an entry
[[nodiscard]] journal::Entry entry_of(const Row& row);

/// Whether two rows tell the same, as journal::same does of entries: all but sequence and
/// received. Bodies are compared as text, which is one and the same for the same body, and
/// which writing what was read gives again.
[[nodiscard]] bool same(const Row& a, const Row& b);

}  // namespace lynearm::store
