// Which of many readings stand on paper: a sensor tells one a second, and the record of a run
// would be a book. Each figure is kept once in a step of whole minutes; what a person told
// apart (a note, a correction, the heat off) is always kept. Few readings all stand.
//
// Leaves out: means over a step. What stands was read.
#pragma once

#include <string>
#include <vector>

#include "journal/state.hpp"

namespace lynearm::sheet {

/// A reading as far as thinning asks.
struct Glance {
  units::Duration at;
  unsigned tells = 0;  ///< a bit for each figure it has, the lowest eight
  bool always = false;
};

struct Thinned {
  std::vector<std::size_t> kept;  ///< places in what was given
  units::Duration step;           ///< nought: all stand
  std::size_t of = 0;             ///< how many there are
};

/// Readings that stand whole, and figures of one kind that stand of more.
inline constexpr std::size_t most_whole = 150;

/// all        in order of time
/// returns    of `most_whole` and fewer, all; of more, whatever is always kept and of each
///            figure at most about `most_whole`, the last reading among them
[[nodiscard]] Thinned thinned(const std::vector<Glance>& all);

/// Those of a run. A power that differs from the one before by a twentieth is kept too, unless
/// it does so more often than `most_whole`.
[[nodiscard]] Thinned thinned(const journal::RunState& run);
[[nodiscard]] Thinned thinned(const std::vector<journal::FermentPoint>& points);
[[nodiscard]] Thinned thinned(const std::vector<journal::MashPoint>& points);

/// For below a table: "Of 21600 readings one in 3 min of each figure stands here; ..."; nothing
/// where all stand.
[[nodiscard]] std::string thin_words(const Thinned& thin);

}  // namespace lynearm::sheet
