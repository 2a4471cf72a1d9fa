// The one place where what went wrong becomes words on standard error and an exit status, and
// where standard output is written.
#pragma once

#include <exception>
#include <string_view>

#include "base/error.hpp"
#include "cli/arguments.hpp"
#include "cli/command.hpp"

namespace lynearm::cli {

/// Exit statuses. A shell's own (126 and above) are kept clear of.
enum Status : int {
  well = 0,
  no_answer = 1,   ///< a solver did not converge, the output could not be written, or a
                   ///< house's disk or database did not do its part
  bad_input = 2,   ///< something the user can mend
  our_fault = 70,  ///< as in BSD's sysexits: an internal fault
};

/// Tells `error` on standard error, one sentence a fault; returns the exit status.
[[nodiscard]] int report(const std::exception_ptr& error);

/// The same faults under the names of the command's options: the engine says "to", the user
/// wrote --to. The text becomes the one that was typed.
[[nodiscard]] base::InputError as_options(const base::InputError& error, const Command& command,
                                          const Arguments& arguments);

/// Writes to standard output. A reader that has gone away is no cause for words.
/// returns    0, or 1 when not everything was taken
[[nodiscard]] int put(std::string_view text);

}  // namespace lynearm::cli
