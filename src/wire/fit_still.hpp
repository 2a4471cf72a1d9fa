// A fit of the still as JSON: one object, one line, keys that name their unit or an entry that
// does. Holds no physics: figures are those of still/fit_still.hpp.
#pragma once

#include <string>
#include <vector>

#include "still/fit_still.hpp"

namespace lynearm::wire {

/// constants (each with value, standard uncertainty, 80 % band, what was believed and whether
/// the runs told it), entangled pairs, instruments, outlying readings, what was passed over,
/// and the account in sentences; every reading beside what the fitted run shows.
///
/// names      of the runs, as many as there are
/// section    the keys of the kit, as text
[[nodiscard]] std::string json(const still::StillFit& fit,
                               const std::vector<std::string>& names,
                               const std::string& section);

}  // namespace lynearm::wire
