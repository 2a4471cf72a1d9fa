// The pages that --help and --version print.
#pragma once

#include <string>
#include <vector>

#include "cli/command.hpp"

namespace lynearm::cli {

/// What the program is, the law, and its commands.
[[nodiscard]] std::string program_help(const std::vector<Command>& commands);
/// A command's options and its worked line.
[[nodiscard]] std::string command_help(const Command& command);
/// "lynearm 0.1.0".
[[nodiscard]] std::string version();

}  // namespace lynearm::cli
