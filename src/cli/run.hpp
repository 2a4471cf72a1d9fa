// The program, from its arguments to its exit status.
#pragma once

namespace lynearm::cli {

/// Prints to standard output and standard error; throws nothing.
int run(int argc, const char* const* argv);

}  // namespace lynearm::cli
