// Every command of the program. A new one: write src/cli/<name>_command.cpp with a function
// <name>_command() that describes it, list the file in CMakeLists.txt, declare the function
// here and add it to commands() in the order of the work.
#pragma once

#include <vector>

#include "cli/command.hpp"

namespace lynearm::cli {

[[nodiscard]] Command plan_command();
[[nodiscard]] Command strip_command();
[[nodiscard]] Command follow_command();
[[nodiscard]] Command spirit_command();
[[nodiscard]] Command fit_still_command();
[[nodiscard]] Command vapour_command();
[[nodiscard]] Command cut_command();
[[nodiscard]] Command gauge_command();
[[nodiscard]] Command reduce_command();
[[nodiscard]] Command blend_command();
[[nodiscard]] Command table_command();
[[nodiscard]] Command wort_command();
[[nodiscard]] Command serve_command();
[[nodiscard]] Command sheet_command();
[[nodiscard]] Command backup_command();
[[nodiscard]] Command restore_command();
[[nodiscard]] Command export_command();
[[nodiscard]] Command import_command();
[[nodiscard]] Command admit_command();

/// All of them, in the order that help lists them.
[[nodiscard]] std::vector<Command> commands();

}  // namespace lynearm::cli
