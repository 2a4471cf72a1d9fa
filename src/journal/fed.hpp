// What was put into a ferment besides its wort, also a later one: how much more it may then
// hold than the wort at the pitch tells, and how high its gravities may stand. Nobody says what
// is in an addition, so these are the most it can be, for judging what cannot be.
#pragma once

#include "journal/state.hpp"
#include "units/quantity.hpp"

namespace lynearm::journal {

/// Of volume: what was told of it, else a kilogram as a litre.
[[nodiscard]] units::Volume most_volume_fed(const BatchState& batch);
/// Of pure alcohol that it can give, all of it taken for sugar: 0.511 kg a kilogram is 0.65 L.
/// A litre of syrup or honey holds at most 1.2 kg.
[[nodiscard]] units::Volume most_alcohol_fed(const BatchState& batch);
/// Of gravity that additions told for a time between two moments can add to the wort as
/// pitched: 0.384 for each kilogram of sugar in a litre. Zero where nothing was pitched.
[[nodiscard]] double most_gravity_added(const BatchState& batch, Moment from, Moment to);

/// Standard deviation of a gravity, by what it was read on.
[[nodiscard]] double gravity_sd(const FermentPoint& point);
/// Whether a later gravity is above an earlier one by more than any honest reading of both, and
/// more than all that was put in between can have added; by so much more.
[[nodiscard]] bool gained(const BatchState& batch, const FermentPoint& from,
                          const FermentPoint& to, double more = 0.0);
/// Whether that is so of a reading against the pitch, and it was read since.
[[nodiscard]] bool above_the_pitch(const BatchState& batch, const FermentPoint& point);

}  // namespace lynearm::journal
