// A fermented wash as what it is made of: water, ethanol and what is still dissolved. From
// that its volume, gravity and strength, without any rule fitted to beer.
//
// Model: the volume of the ethanol and water (OIML R 22) plus the volume the extract would add
// to that water alone (sucrose table). Leaves out how ethanol and extract press on each other
// (checked against beer: 0.05 °P), dissolved gas, yeast and suspended grain.
#pragma once

#include "spirit/lot.hpp"
#include "units/quantity.hpp"
#include "wort/gravity.hpp"

namespace lynearm::wort {

/// Masses, all zero or more. `extract` is all that is dissolved and does not distil: sugars
/// left, glycerol, acids, minerals.
struct Wash {
  units::Mass water;
  units::Mass ethanol;
  units::Mass extract;

  friend constexpr Wash operator+(Wash a, Wash b) {
    return {a.water + b.water, a.ethanol + b.ethanol, a.extract + b.extract};
  }
  friend constexpr Wash operator-(Wash a, Wash b) {
    return {a.water - b.water, a.ethanol - b.ethanol, a.extract - b.extract};
  }
  friend constexpr Wash operator*(Wash a, double share) {
    return {a.water * share, a.ethanol * share, a.extract * share};
  }
  [[nodiscard]] constexpr units::Mass mass() const { return water + ethanol + extract; }
};

/// The part a still can take: its ethanol and water.
[[nodiscard]] constexpr spirit::Lot lot(const Wash& wash) { return {wash.ethanol, wash.water}; }

/// Volume at `t`.
///
/// t          0 to 40 °C
/// throws     InputError outside the range, or when the extract is over 40 % of extract and
///            water together
/// accuracy   exact limits: spirit::volume() without extract, wort volume without ethanol;
///            apparent extract within 0.05 °P of the two means in Cutaia et al. 2009
[[nodiscard]] units::Volume volume(const Wash& wash,
                                   units::Temperature t = units::Temperature::celsius(20.0));

/// Gravity a hydrometer shows at 20 °C in the degassed wash; 1 for an empty wash. A dry wash
/// of 6 to 10 %vol shows 0.990 to 1.000.
[[nodiscard]] units::SpecificGravity specific_gravity(const Wash& wash);

/// Litres of pure alcohol in a hundred litres of the wash, at 20 °C; zero for an empty wash.
[[nodiscard]] units::VolumeStrength strength(const Wash& wash);

/// Extract truly in the wash, % by mass.
[[nodiscard]] units::Plato real_extract(const Wash& wash);

}  // namespace lynearm::wort
