// What stands on the command line of `reduce`, computed: one report for text and JSON alike.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/arguments.hpp"
#include "cli/command.hpp"
#include "spirit/check_reading.hpp"
#include "wire/reduction.hpp"

namespace lynearm::cli {

[[nodiscard]] std::vector<Option> reduction_options();

/// Which question was asked.
enum class ReductionQuestion {
  water_needed,     ///< how much water brings it down
  spirit_needed,    ///< how much spirit makes a wanted volume
  strength_after,   ///< how strong it is with a given water in it
  strength_before,  ///< how strong it was before
};

struct AskedReduction {
  ReductionQuestion question = ReductionQuestion::water_needed;
  wire::ReductionReport report;
  units::Mass tare;
};

/// throws     InputError with every fault
[[nodiscard]] AskedReduction asked_reduction(Arguments& arguments);

/// What was found after mixing (--found), and what mends it.
struct AskedCheck {
  spirit::Lot found;
  units::VolumeStrength wanted;
  spirit::Correction correction;
  spirit::Mistake mistake;
};
/// throws     InputError with every fault
[[nodiscard]] AskedCheck asked_check(Arguments& arguments);

}  // namespace lynearm::cli
