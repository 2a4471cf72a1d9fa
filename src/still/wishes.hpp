// What a maker wants of the hearts: weights, and limits that hold whatever the weights say.
//
// The worth of hearts is counted in litres of pure alcohol:
//
//   worth = A (v - s u_w^2 - e u_e^2 - l u_l^2 - f m)
//
// A is their pure alcohol. Each u is what they carry for each litre of it against a yardstick:
// water (weight "strength"), early and late congeners. By the square, because twice the load is
// more than twice the fault; m, the mean of the nose's marks against theirs, counts as it is,
// since a spoiled jar spoils what it is mixed with. Our convention, no source. From it follows
// that a jar belongs in the hearts while its own load is not far above that of what is there
// already, that each drop more of a load costs more than the one before, and so that a jar at
// the border may be taken in part.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "units/quantity.hpp"

namespace lynearm::still {

/// Zero to 100 each; volume above zero.
struct Weights {
  double volume = 1.0;    ///< v: pure alcohol, which is the volume once it is reduced
  double strength = 0.0;  ///< s
  double early = 0.0;     ///< e
  double late = 0.0;      ///< l
  double fault = 1.0;     ///< f
};

/// Weights with a name.
struct Purpose {
  std::string_view id;     ///< "clean"
  std::string_view words;  ///< "clean, for quick ageing"
  Weights weights;
};
/// Clean and fuller. Set so that a usual run's hearts end near where the trade ends them; our
/// estimate.
[[nodiscard]] const std::array<Purpose, 2>& purposes();
/// throws     InputError ("purpose") with the names there are
[[nodiscard]] const Purpose& purpose(std::string_view id);

/// What the loads are held against, per litre of pure alcohol.
struct Yardstick {
  units::MassConcentration early, late;
};
/// Water is held against that beside the alcohol of a spirit of this strength.
inline constexpr units::VolumeStrength yardstick_strength =
    units::VolumeStrength::percent(60.0);
/// Marks are held against this one.
inline constexpr double yardstick_fault = 5.0;

/// The least and the greatest strength of the hearts lie so far apart at least: no maker blends
/// more closely from jars.
inline constexpr units::VolumeStrength nearest_limits = units::VolumeStrength::percent(0.1);

struct Wishes {
  Weights weights;
  /// Set aside as foreshots: every jar begun before so much had run, and the first in any case.
  /// One that takes only the last of them, a quarter or less, is for the feints.
  /// Without it, the jars that say so, or else the first.
  std::optional<units::Volume> foreshots{};
  /// Set aside as heads, for the feints: every jar more than half of which had run before so
  /// much had, unless none would be left for the hearts.
  std::optional<units::Volume> heads{};
  std::optional<units::VolumeStrength> hearts_at_least{};  ///< strength of the blend
  std::optional<units::VolumeStrength> hearts_at_most{};   ///< strength of the blend
  /// A jar under this strength is never in the hearts: "hearts end at 56 %vol".
  std::optional<units::VolumeStrength> jars_at_least{};
  /// At 20 °C, before reducing; or the pure alcohol. One of the two at most. It takes the place
  /// of the weight of volume.
  std::optional<units::Volume> hearts{};
  std::optional<units::Volume> pure_alcohol{};
  /// Without it, twice what the middle drop of the jars' alcohol carries.
  std::optional<Yardstick> yardstick{};
};

}  // namespace lynearm::still
