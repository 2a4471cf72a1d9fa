// What stands on the command line of `cut`: where the jars are, and what the maker wishes of
// them.
#pragma once

#include <string>
#include <vector>

#include "cli/arguments.hpp"
#include "cli/command.hpp"
#include "still/jar.hpp"
#include "still/wishes.hpp"

namespace lynearm::cli {

/// The options that tell what is wished of the jars, wherever these come from.
[[nodiscard]] std::vector<Option> cut_wishes_options();

struct AskedCut {
  std::string purpose;  ///< id; "own" where the maker gave weights
  still::Wishes wishes;
};
/// Reads them; notes faults in `arguments`.
[[nodiscard]] AskedCut asked_cut(Arguments& arguments);

/// The jars of the file that --jars names, or of standard input for "-".
/// throws     InputError with every fault
[[nodiscard]] std::vector<still::Jar> asked_jars(Arguments& arguments);

}  // namespace lynearm::cli
