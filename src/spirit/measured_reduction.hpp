// A reduction as it is measured out: spirit, water and result each at a temperature of its own.
//
// The balance is by mass and does not know temperature; the volumes follow from the densities
// of OIML R 22, water being its mixture without ethanol. Leaves out the warmth that mixing
// makes (some kelvins: the heat of mixing is modelled in vapour/, above this room): the result
// is told as it stands once it has come to the temperature asked for.
#pragma once

#include "spirit/density.hpp"
#include "spirit/reduction.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// The water's range. Colder is ice; warmer, spirit and water make vapour that can burn.
inline constexpr units::Temperature coldest_water = units::Temperature::celsius(0.0);
inline constexpr units::Temperature warmest_water = units::Temperature::celsius(40.0);

/// Where each volume is measured.
struct MixingTemperatures {
  units::Temperature spirit = reference_20C;  ///< -20 to 40 °C
  units::Temperature water = reference_20C;   ///< 0 to 40 °C
  units::Temperature result = reference_20C;  ///< -20 to 40 °C, after rest
};

/// A reduction with its volumes at the temperatures they are measured at.
struct MeasuredReduction {
  Reduction by_mass;     ///< the masses, and every volume at 20 °C with the contraction there
  units::Volume spirit;  ///< at the spirit's temperature
  units::Volume water;   ///< at the water's
  units::Volume result;  ///< at the result's
  /// Spirit plus water less result as measured. It holds the swelling or shrinking between the
  /// temperatures too, so it can be below zero where by_mass.contraction is not.
  units::Volume contraction;
};

/// The volumes of a reduction of `spirit`.
///
/// throws     InputError ("spirit_temperature", "water_temperature", "result_temperature")
///            outside the ranges; hot water is refused, since it drives vapour off the spirit
/// accuracy   that of the density formula; at 20 °C the same figures as `reduction`, to
/// rounding source     OIML R 22
[[nodiscard]] MeasuredReduction measured(const Lot& spirit, const Reduction& reduction,
                                         const MixingTemperatures& t);

/// Water that brings `spirit` to `to`, measured out at `t`: reduce() and then measured(). A
/// spirit known by volume or by mass is made a lot by lot(); 4 L of 70 %vol at 31 °C:
/// reduce(lot(litres(4), percent(70), celsius(31)), percent(55), {.spirit = celsius(31)}).
///
/// throws     InputError as both do
[[nodiscard]] MeasuredReduction reduce(const Lot& spirit, units::VolumeStrength to,
                                       const MixingTemperatures& t);

/// The water that fills `volume` at `t`.
///
/// volume     zero or more
/// t          0 to 40 °C
/// throws     InputError ("water", "water_temperature") outside either range
[[nodiscard]] units::Mass water_mass(units::Volume volume, units::Temperature t);

/// The volume of `water` at `t`: the way back from water_mass().
///
/// throws     InputError ("water", "water_temperature") outside either range
[[nodiscard]] units::Volume water_volume(units::Mass water, units::Temperature t);

}  // namespace lynearm::spirit
