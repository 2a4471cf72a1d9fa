// Inside a cut: what spirit carries for each litre of its pure alcohol, held against a
// yardstick (the u of wishes.hpp), and the yardstick that a run of jars gives by itself.
#pragma once

#include <vector>

#include "still/jar.hpp"
#include "still/wishes.hpp"

namespace lynearm::still {

/// Each over its yardstick: 1 is as much.
struct AgainstYardstick {
  double water = 0.0, early = 0.0, late = 0.0;
};
/// alcohol    none: nothing is carried. A yardstick of nothing: neither, since no jar has any.
[[nodiscard]] AgainstYardstick against_yardstick(units::Mass water, units::Mass early,
                                                 units::Mass late, units::Volume alcohol,
                                                 const Yardstick& yardstick);

/// Twice what the middle drop of the jars carries: half of all alcohol came with less. The
/// middle, not the mean, so that foreshots and how far into the tails the run went hardly move
/// it. Between the middles of two jars it lies on a line; where most jars carry nothing of a
/// load, the mean stands for it.
///
/// jars       at least one, with their loads
[[nodiscard]] Yardstick yardstick_of(const std::vector<Jar>& jars);

}  // namespace lynearm::still
