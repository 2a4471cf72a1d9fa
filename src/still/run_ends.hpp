// Inside a run: the ways it can end, and what is refused before it begins.
#pragma once

#include <functional>
#include <vector>

#include "still/run.hpp"
#include "still/run_state.hpp"

namespace lynearm::still {

/// One way a run can end: positive while it goes on.
struct Limit {
  Ending ending;
  std::function<double(const RunState&)> room;
};

/// The last is the pot run dry. The charge outlives what is returned.
[[nodiscard]] std::vector<Limit> limits(const Charge& charge, const Stop& stop);

/// Throws InputError naming the stop that the first drop is already past.
[[noreturn]] void refuse_start(Ending ending, const Stop& stop, const RunState& start,
                               const Charge& charge);

/// Throws InputError for what no run can be made of.
void check(const Charge& charge, const RunSetting& setting, const Stop& stop);

}  // namespace lynearm::still
