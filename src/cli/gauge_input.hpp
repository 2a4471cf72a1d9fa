// What stands on the command line of `gauge`, as an observation: which instrument was used is
// told by which option was given.
#pragma once

#include <string>
#include <vector>

#include "cli/arguments.hpp"
#include "cli/command.hpp"
#include "spirit/gauging.hpp"

namespace lynearm::cli {

/// The options that tell what was observed, and how well.
[[nodiscard]] std::vector<Option> gauging_options();

/// What was observed, and in words what its limits are ("a glass from 0 to 100 %...").
struct AskedGauging {
  spirit::GaugingInput input;
  std::vector<std::string> limits;  ///< of each input that may be off, for people
};

/// Reads them; notes faults in `arguments` and settles them.
/// throws     InputError with every fault
[[nodiscard]] AskedGauging asked_gauging(Arguments& arguments);

/// The glass of a hydrometer, for --batch as for one reading.
[[nodiscard]] spirit::Hydrometer asked_hydrometer(Arguments& arguments);

}  // namespace lynearm::cli
