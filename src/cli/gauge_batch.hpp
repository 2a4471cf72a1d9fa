// lynearm gauge --batch FILE.csv: a column of readings corrected as a stream, in constant
// memory.
//
// Good rows go to standard output as soon as they have come in, so that it can stand in a pipe
// and answers a typed row at once; faults go to standard error by line number. The columns are
// those of gauge_columns.hpp, the figures those of gauge_rows.hpp.
#pragma once

#include <string>

#include "spirit/hydrometer.hpp"

namespace lynearm::cli {

/// Exit status where some rows failed and the others were written.
inline constexpr int some_rows_failed = 3;

/// Corrects a file of readings.
///
/// path       of the file; "-" is standard input
/// returns    Status::well; some_rows_failed where a row did, at the end told as
///            "3 of 1,204 rows failed."; Status::no_answer where the output was not taken
/// throws     InputError, before any output, where the file cannot be read or its head line
///            will not do; also where reading breaks off later
[[nodiscard]] int gauge_batch(const std::string& path,
                              const spirit::Hydrometer& hydrometer = {});

}  // namespace lynearm::cli
