// Numbered steps of a schema, each an SQL file of this room that is built in. A step that was
// ever published is never edited: a change is a further step.
#pragma once

#include <span>
#include <string_view>

namespace lynearm::store {

/// The first is version 1, and so on.
[[nodiscard]] std::span<const std::string_view> sqlite_migrations();
[[nodiscard]] std::span<const std::string_view> postgresql_migrations();

}  // namespace lynearm::store
