// A spirit run in words and columns.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/look.hpp"
#include "still/todays_air.hpp"
#include "still/told_run.hpp"

namespace lynearm::cli {

/// What stands beside the run itself in the text.
struct SpiritWords {
  bool congeners = false;             ///< print all sixteen
  bool amounts_usual = true;          ///< of congeners: those of a usual charge
  bool foreshots_usual = false;       ///< a hundredth of the charge, since none were asked for
  std::string still;                  ///< "a bare pot still of 28.6 L", or the kit's name
  std::vector<std::string> findings;  ///< what does not fit, worst first
  std::optional<still::TodaysAir> today;  ///< then temperatures also as its thermometer shows
};

[[nodiscard]] std::string spirit_text(const still::ToldRun& told, const SpiritWords& words,
                                      const Look& look);
/// Models, sources and what is left out.
[[nodiscard]] std::string spirit_why(const still::ToldRun& told, const SpiritWords& words,
                                     const Look& look);

}  // namespace lynearm::cli
