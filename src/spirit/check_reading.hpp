// After mixing, rest and gauging: what the maker found, the little that mends it, and what the
// difference from the plan says about the mistake. Exact mass balances; how sure a reading is
// stands elsewhere.
#pragma once

#include <optional>

#include "spirit/lot.hpp"
#include "spirit/reduction.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// What mends a reduction.
enum class Remedy { none, add_water, add_spirit };

struct Correction {
  Remedy remedy = Remedy::none;
  units::Mass water;  ///< to add still
  Lot spirit;         ///< strong spirit to add back
  Lot result;
  units::Volume volume_at_20C;
};

/// What brings the vessel to `wanted`.
///
/// found      what stands there: lot() of the strength read (true, at 20 °C) and of the amount,
///            a mass or a volume at its temperature. Without either, the planned mass serves:
///            water and spirit that were weighed in are still there
/// wanted     above 0 to 100 %vol
/// strong     spirit at hand to add back if it is too weak; above `wanted`
/// near       a difference left alone, in points of strength; zero or more. By default none
///            beyond rounding
/// throws     InputError ("found", "wanted", "near"), or ("strong") when it is too weak and
///            `strong` is missing or not above `wanted`
/// accuracy   the result has the wanted strength to 1e-12
[[nodiscard]] Correction correct(const Lot& found, units::VolumeStrength wanted,
                                 std::optional<units::VolumeStrength> strong = std::nullopt,
                                 units::VolumeStrength near = {});

/// Found less planned, and three single mistakes that would each explain the strength found.
struct Mistake {
  units::Mass mass;                ///< found less planned: spilt or left behind if below zero
  units::Volume pure_alcohol;      ///< found less planned, at 20 °C
  units::VolumeStrength strength;  ///< found less planned, points
  /// Spirit right: the water given was this much more than planned (less if below zero). It is
  /// the likely mistake when `mass` is off by the same.
  units::Mass water;
  /// Amounts right: the spirit really was this strong, as when it was gauged warm. Likely when
  /// `mass` is nearly nothing. Empty when no spirit is so strong.
  std::optional<units::VolumeStrength> spirit_strength;
  /// Water and strength right: the spirit weighed this much more than planned (less if below
  /// zero). Likely when `mass` is off by the same. Empty when no amount explains it: without
  /// water, or found as strong as the spirit itself.
  std::optional<units::Mass> spirit_mass;
};

/// What a finding implies against the plan of adding `water` to `spirit`.
///
/// spirit     as planned; must hold ethanol
/// water      as planned, zero or more
/// found      what stands there; must hold ethanol
/// besides    weaker spirit that went in too, taken as right; zero or more
/// throws     InputError ("spirit", "water", "found", "besides") otherwise
[[nodiscard]] Mistake mistake(const Lot& spirit, units::Mass water, const Lot& found,
                              const Lot& besides = {});

}  // namespace lynearm::spirit
