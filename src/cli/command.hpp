// A command as data: its options, its help and the function behind it. Parsing, help, the
// nearest right name and the tests all read this one description, so that they cannot disagree;
// a command's file needs neither the parsing library nor the terminal.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/arguments.hpp"
#include "cli/look.hpp"

namespace lynearm::cli {

/// What may stand on the command line.
struct Option {
  std::string name;        ///< "--volume"; without dashes ("RECIPE") it is known by its place
  std::string value_name;  ///< "VOLUME"; empty for a switch
  std::string help;        ///< one line, without full stop
  bool repeats = false;    ///< may be given several times
};

/// One worked line; a test runs it and holds the first line it prints against `result`.
struct Example {
  std::string arguments;  ///< what follows "lynearm gauge "
  std::string result;
};

struct Command {
  std::string name;
  std::string summary;          ///< one line for the list of commands, without full stop
  std::vector<Option> options;  ///< its own; --json, --units and --help come to every command
  Example example;
  std::string note;  ///< what the model is and what it leaves out; empty or whole lines
  /// Everything for standard output, with its last line end. What it throws is told by
  /// report.cpp, so nothing has been printed when something is wrong.
  std::string (*run)(Arguments& arguments, const Look& look) = nullptr;
  /// Of a command that can answer row by row while it reads: its exit status, or nothing where
  /// these arguments are for run().
  std::optional<int> (*stream)(Arguments& arguments, const Look& look) = nullptr;
};

}  // namespace lynearm::cli
