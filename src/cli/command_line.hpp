// From the words of the command line to a command and its arguments. The parsing itself is
// CLI11's, and this is the only place that knows it; its errors leave as sentences of ours.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

#include "cli/arguments.hpp"
#include "cli/command.hpp"

namespace lynearm::cli {

/// A command line that cannot be understood; what() is a whole sentence.
class UsageError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

enum class Asked { run, help, version };

struct CommandLine {
  Asked asked = Asked::run;
  const Command* command = nullptr;  ///< one of those given; null: the program as a whole
  Arguments arguments;
};

/// commands   must outlive the result
/// throws     UsageError for an unknown command or option, with the nearest right one; for an
///            option without its value, or given twice
[[nodiscard]] CommandLine parse(int argc, const char* const* argv,
                                const std::vector<Command>& commands);

/// --json, --units and --help, which come to every command.
[[nodiscard]] const std::vector<Option>& common_options();

}  // namespace lynearm::cli
