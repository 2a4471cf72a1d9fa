// A fit of the still as a report to read and print: the constants, what the runs did not tell,
// and for each run and instrument a picture of what was read, what the fitted run shows, and
// the difference.
#pragma once

#include <string>
#include <vector>

#include "sheet/letter.hpp"
#include "sheet/page.hpp"
#include "still/fit_still.hpp"

namespace lynearm::sheet {

struct StillReport {
  const still::StillFit& fit;
  std::string kit;                ///< its name
  std::vector<std::string> runs;  ///< their names
  std::string section;            ///< the kit's keys, as text
  Paper paper = Paper::a4;
};

/// Readings (rings; outlying ones crosses) about the fitted curve over the hours of a run, and
/// below it shown less expected between lines at two spreads.
///
/// throws     BrokenInvariant when the run has no reading of that instrument
[[nodiscard]] Drawing residual_picture(const still::StillFit& fit, int run,
                                       still::LogInstrument instrument);

/// One HTML text that needs nothing else.
[[nodiscard]] std::string still_report(const StillReport& report);

/// "3.21 W/K", "91.2 %", "+0.4 K": a constant as it is printed, to two digits of its
/// uncertainty.
[[nodiscard]] std::string shown(const still::FittedConstant& constant, double value);

}  // namespace lynearm::sheet
