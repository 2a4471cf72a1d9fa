// The ensemble's members shared out over the machine's cores. Members are independent and each
// writes to its own place, so the result is the same for any number of threads.
#pragma once

#include <cstddef>
#include <functional>

#include "numeric/ensemble.hpp"

namespace lynearm::cli {

/// Called now and then on the calling thread while the others work, and once more at the end.
using Progress = std::function<void(std::size_t done, std::size_t count)>;

/// As many threads as the machine has cores; at least one.
[[nodiscard]] int all_cores();

/// An executor of `threads` workers; tasks are handed out one by one. Where the system gives
/// fewer threads, fewer do the work.
///
/// threads    1 or more
/// throws     (the executor) what a task threw, of several that of the lowest task; tasks not
///            yet begun are then left out
[[nodiscard]] numeric::Executor on_threads(int threads, Progress progress = {});

/// Tells on standard error how far the bands are, "Bands: 240 of 500 members", when that is a
/// terminal and it has taken longer than a second; wiped out at the end.
[[nodiscard]] Progress told_on_terminal();

}  // namespace lynearm::cli
