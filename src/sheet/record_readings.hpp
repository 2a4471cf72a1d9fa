// What was read in a run, as tables.
#pragma once

#include "sheet/record_words.hpp"

namespace lynearm::sheet {

/// How a run's readings stand.
struct RunReadings {
  Table table;
  bool wide = false;    ///< needs the width of a page
  std::string besides;  ///< what has no column: power, the heat, notes; said below the table
  std::string thinned;  ///< that not all stand here; else empty
};

/// A row for each reading, with what the plan expected when as much had come.
/// lean       without what a strip seldom has: what the spout showed, and a column of words
[[nodiscard]] RunReadings run_readings(const Record& record, const journal::RunState& run,
                                       const plan::RunPlan& planned, bool lean);

/// "2.0 kW, then 1.4 kW": at the start, and each that was another than the one before.
[[nodiscard]] std::string power_of(const journal::RunState& run, units::System system);

}  // namespace lynearm::sheet
