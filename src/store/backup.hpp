// A house in one file: an SQLite file with the tables of a house, and `attachment`, which holds
// the files, and `digest`, a hash over all entries. One format, checked and read by what the
// program has anyway; and the same from either database, so that it also carries a house from
// one to the other.
//
// The paired devices stay out: a backup lies in other places than the house, and must not open
// it. After restoring, phones are paired anew.
#pragma once

#include <cstddef>
#include <filesystem>

#include "store/house.hpp"

namespace lynearm::store {

struct Backup {
  std::size_t entries = 0;
  std::size_t attachments = 0;

  friend bool operator==(const Backup&, const Backup&) = default;
};

/// Of a house in use too: one consistent view of its journal, and every attachment that was
/// there by then. The file is durable and whole when it has its name.
///
/// replace    an older backup of that name is replaced, once the new one is whole
/// throws     InputError at "backup" when there is a file of that name (with `replace`: one
///            that is no backup), or it cannot be made; Trouble
Backup back_up(House& house, const std::filesystem::path& file, bool replace = false);

/// Whether it could be restored: all of it is read and held against its hashes.
///
/// throws     InputError at "backup" when the file is no whole backup or of a newer version;
///            Trouble
Backup check_backup(const std::filesystem::path& file);

/// Into a house without entries. The file is checked first; nothing is kept of a damaged one.
///
/// throws     InputError at "backup" as check_backup does, at "store" when the house has
///            entries; Trouble
Backup restore(const std::filesystem::path& file, House& house);

}  // namespace lynearm::store
