// Runs the built program as a user would: arguments in, both outputs and the exit status back.
#pragma once

#include <string>
#include <vector>

namespace lynearm::cli {

struct Ran {
  int status = -1;  ///< exit status; 128 and the signal when it was killed
  std::string out;
  std::string err;
};

/// Where the program's standard output goes.
enum class Out {
  pipe,         ///< read to its end
  closed,       ///< no standard output at all
  gone_reader,  ///< a pipe that nobody reads any more
  full_device,  ///< a device that takes nothing
  terminal,     ///< a terminal
};

/// environment   "NAME=value" entries beside a plain TERM
[[nodiscard]] Ran lynearm(const std::vector<std::string>& arguments, Out out = Out::pipe,
                          const std::vector<std::string>& environment = {});

/// The same through a shell, for a worked line of a help page: `line` begins with "lynearm ".
[[nodiscard]] Ran shell(const std::string& line);

}  // namespace lynearm::cli
