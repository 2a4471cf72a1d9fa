// Readings of a run as they come in, line by line, as CSV or as JSON lines: which of the two is
// told by the first character that is not a space.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "still/reading.hpp"
#include "units/quantity.hpp"

namespace lynearm::cli {

/// What is done with a reading; faults of it are thrown as InputError.
using TakeReading = std::function<void(const still::Reading&)>;
/// What is done with the faults of a row.
using TellFaults = std::function<void(const std::vector<base::Fault>&)>;

struct RowsTaken {
  std::size_t taken = 0;
  std::size_t failed = 0;
};

/// Reads to the end; each reading is handed on as soon as its line is whole.
///
/// path       of the file; "-" is standard input
/// option     named where it cannot be read
/// throws     InputError where the file cannot be read
RowsTaken read_readings(const std::string& path, const std::string& option,
                        const TakeReading& take, const TellFaults& tell);

}  // namespace lynearm::cli
