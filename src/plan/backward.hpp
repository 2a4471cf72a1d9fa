// The chain run backward: what batch fits the kit, what batch gives so much spirit, what sugar
// or water gives a gravity, how much of another ingredient gives the same. Each answer is a
// recipe that is put through make() again before it is given, so what is promised is what the
// plan says.
#pragma once

#include <optional>
#include <string>

#include "plan/plan.hpp"

namespace lynearm::plan {

/// A recipe that was changed to meet a wish.
struct Solved {
  Recipe recipe;
  double factor = 1.0;  ///< on every amount of the recipe given
  std::string says;     ///< what was changed, for people
};

/// The recipe with every mass and volume that belongs to the batch's size times `factor`:
/// grain, sugar, waters, fermenter fill, feints, and borders given by volume. A number of
/// charges is dropped, for it belongs to the size given. Strengths, temperatures and times
/// stay. factor     0.001 to 1000
/// charge_factor  on the borders given by volume, which belong to one charge of the boiler; the
///                batch's own factor when left out
[[nodiscard]] Recipe scaled(const Recipe& recipe, double factor,
                            std::optional<double> charge_factor = std::nullopt);

/// The largest batch that fits the vessels: no vessel over its working volume, no wash left
/// over. The number of charges is not limited. Found to 0.1 %.
/// throws     InputError when not even a hundredth of the recipe fits
[[nodiscard]] Solved scale_to_kit(const Recipe& recipe, const Kit& kit);

/// The batch that gives `volume` of spirit at `strength` for the cask or the staves: the
/// recipe's maturing strength becomes `strength`, and its size is scaled. Found to 0.01 %,
/// unless one spirit charge is full and surplus low wines are kept: then the least batch that
/// reaches the volume is not there, and it says so.
/// throws     InputError ("for") when no size gives it
[[nodiscard]] Solved for_spirit(const Recipe& recipe, const Kit& kit, units::Volume volume,
                                units::VolumeStrength strength);

/// The recipe with its sugar, or its topping-up water, changed so that the wort starts at
/// `gravity`: which of them the recipe says (ferment.gravity_by). By sugar, all sugars change
/// in proportion and the volume stays; by water, the volume changes.
/// throws     InputError ("gravity") when it cannot be reached that way, with what can
[[nodiscard]] Solved for_gravity(const Recipe& recipe, const Kit& kit,
                                 units::SpecificGravity gravity);

/// The recipe with one line's ingredient replaced by another of the same extract: its mass
/// changes, its lot's analysis and price go. The new one comes in where its kind does: raw
/// grain into the cook when there is one, sugar into the sugar boil or the fermenter. A cook or
/// sugar boil that nothing is left for goes, its water into the mash.
///
/// line       of the bill, from 1
/// throws     InputError ("line", "ingredient"); or as make() when the new bill cannot be made
[[nodiscard]] Solved replaced(const Recipe& recipe, const Kit& kit, int line,
                              const std::string& ingredient);

}  // namespace lynearm::plan
