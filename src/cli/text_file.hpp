// Text from and to files, for the commands that take a path.
#pragma once

#include <stdexcept>
#include <string>

#include "cli/arguments.hpp"

namespace lynearm::cli {

/// A file that could not be written; what() is a whole sentence.
class NotWritten : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The text of a file the user names; a file that cannot be read is a fault of `option`.
/// noun       what it should be: "a recipe file"
[[nodiscard]] std::string read_file(Arguments& arguments, const std::string& option,
                                    const std::string& path, const std::string& noun);

/// Writes a file whole or not at all: beside it first, then under its name. What is not an
/// ordinary file (a device, a pipe) is written as it stands.
/// throws     NotWritten
void write_file(const std::string& path, const std::string& text);

}  // namespace lynearm::cli
