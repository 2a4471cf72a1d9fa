// One reading of a run as one JSON object on one line, under the names of record/run_key.hpp:
// {"minutes":42,"head_temperature_C":88.4,"spout":"71 %vol","spout_temperature_C":19}.
//
// Under a name with a unit stands a number, under a name without it a text that states one.
// null is "not read". Leaves out whether a figure fits the run.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "record/clock.hpp"
#include "still/reading.hpp"

namespace lynearm::wire {

/// A reading, or the faults it has instead.
struct ReadingLine {
  std::optional<still::Reading> reading;
  std::vector<base::Fault> faults;  ///< with file and line, and column where the JSON breaks
};

/// Reads one line after the other.
class ReadingLines {
 public:
  /// file       what the faults call the text
  /// heat_on    time of day when the heat was turned on, for "clock"; empty: at the first line
  explicit ReadingLines(std::string file, std::optional<units::Duration> heat_on = std::nullopt)
      : file_(std::move(file)), clock_(heat_on) {}

  /// The next line, without its end. Does not throw: broken JSON, a name that is unknown or
  /// there twice, a wrong type, a missing time, a figure that no instrument shows are faults,
  /// all of a line together. An empty line has neither reading nor fault.
  [[nodiscard]] ReadingLine next(std::string_view line);

 private:
  std::string file_;
  record::Clock clock_;
  int line_ = 0;
};

/// The reading as such a line, without its end: minutes, power_W, pot_temperature_C,
/// head_temperature_C, spout_percent_vol (or the name of its scale), spout_temperature_C,
/// collected_mL, coolant_in_C, coolant_out_C, coolant_flow_L_per_min, event, note; only what
/// was read, figures of ten significant digits. A spout reading as density or specific gravity
/// is written as text under "spout".
[[nodiscard]] std::string reading_json(const still::Reading& reading);

}  // namespace lynearm::wire
