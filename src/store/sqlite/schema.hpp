// The schema of a house's SQLite file: made new, or brought from any earlier version to ours.
#pragma once

#include <filesystem>

#include "store/sqlite/database.hpp"

namespace lynearm::store::sqlite {

/// "Lyne" in the file's header: tells our files from other programs'.
inline constexpr std::int64_t application_id = 0x4C796E65;

/// In one transaction: all steps or none.
///
/// throws     InputError at "store" when the file is another program's, or of a version newer
///            than this program's
void bring_up_to_date(Database& database, const std::filesystem::path& file);

/// For a connection that only reads.
/// throws     InputError at "store" unless the file is of our version
void require_up_to_date(Database& database, const std::filesystem::path& file);

}  // namespace lynearm::store::sqlite
