// What was put into a ferment besides its wort: how much more it may then hold than the wort
// tells, and how high its gravities may stand. Nobody says what is in it, so these are the most
// it can be, for judging what cannot be.
#pragma once

#include "journal/state.hpp"
#include "units/quantity.hpp"

namespace lynearm::journal {

/// Of volume: what was told of it, else a kilogram as a litre.
[[nodiscard]] units::Volume most_volume_fed(const BatchState& batch);
/// Of pure alcohol that it can give, all of it taken for sugar: 0.511 kg a kilogram is 0.65 L.
/// A litre of syrup or honey holds at most 1.2 kg.
[[nodiscard]] units::Volume most_alcohol_fed(const BatchState& batch);
/// Of gravity that it can add to the wort as pitched: 0.384 for each kilogram of sugar in a
/// litre. Zero where nothing was pitched.
[[nodiscard]] double most_gravity_fed(const BatchState& batch);

/// Standard deviation of a gravity, by what it was read on.
[[nodiscard]] double gravity_sd(const FermentPoint& point);
/// Whether one gravity is above another by more than any honest reading of both, and more than
/// all that was put in can have added.
[[nodiscard]] bool gained(const BatchState& batch, units::SpecificGravity from, double from_sd,
                          const FermentPoint& to);
/// Whether that is so of a reading against the pitch, and it was read since.
[[nodiscard]] bool above_the_pitch(const BatchState& batch, const FermentPoint& point);

}  // namespace lynearm::journal
