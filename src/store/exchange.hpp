// The journal as text: one entry a line, as wire::entry_json writes it, in the order of
// keeping. Reading it back is keeping it, so a line that is there already is harmless and two
// journals can be poured together. Attachments do not go along: a backup holds them
// (backup.hpp).
#pragma once

#include <cstddef>
#include <filesystem>
#include <istream>
#include <ostream>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "store/journal.hpp"

namespace lynearm::store {

/// One consistent view of the journal.
///
/// returns    the number of lines
/// throws     Trouble when the text cannot be written or the journal not be read
std::size_t export_lines(const Journal& journal, std::ostream& to);

/// The same into a new file, durable and whole when it has its name.
///
/// throws     InputError at "export" when there is a file of that name, or it cannot be made;
///            Trouble
std::size_t export_file(const Journal& journal, const std::filesystem::path& file);

/// Such a text, read.
struct Lines {
  std::string file;  ///< named in the faults
  std::vector<journal::Entry> entries;
  std::vector<int> numbers;  ///< of each entry's line
  std::vector<base::Fault> faults;
};

/// Reads such a text, before any house is opened or made for it; empty lines are passed over.
///
/// keep_good  returns the faults instead of throwing them, unless no line is without
/// throws     InputError with every fault (at most a hundred) at its line
[[nodiscard]] Lines read_lines(std::istream& from, const std::string& file,
                               bool keep_good = false);

struct Import {
  std::size_t kept = 0;  ///< entries that are new here
  std::size_t there_already = 0;
  std::vector<base::Fault> faults;  ///< with their lines; only where the good ones are kept
};

/// Keeps what was read. With any fault nothing is kept, unless the good lines are asked for.
///
/// keep_good  keeps the lines without fault and returns the faults of the others
/// throws     InputError with every fault (at most a hundred) at its line; Trouble
Import import_lines(Journal& journal, Lines read, bool keep_good = false);

/// Both, of a house that is there.
Import import_lines(Journal& journal, std::istream& from, const std::string& file,
                    bool keep_good = false);

}  // namespace lynearm::store
