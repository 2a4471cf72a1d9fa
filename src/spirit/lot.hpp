// A lot of spirit as what it is made of: a mass of ethanol and a mass of water. Masses add
// exactly, volumes do not; so every balance in the house is kept in lots, and volume and
// strength are asked of a lot when needed.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::spirit {

/// A mass of ethanol and a mass of water, both zero or more.
struct Lot {
  units::Mass ethanol;
  units::Mass water;

  friend constexpr Lot operator+(Lot a, Lot b) {
    return {a.ethanol + b.ethanol, a.water + b.water};
  }
  friend constexpr Lot operator-(Lot a, Lot b) {
    return {a.ethanol - b.ethanol, a.water - b.water};
  }
  friend constexpr Lot operator*(Lot a, double share) {
    return {a.ethanol * share, a.water * share};
  }
  [[nodiscard]] constexpr units::Mass mass() const { return ethanol + water; }
};

/// The lot that fills `volume` at `t` with spirit of `strength` (by volume at 20 °C).
[[nodiscard]] Lot lot(units::Volume volume, units::VolumeStrength strength,
                      units::Temperature t = units::Temperature::celsius(20.0));
/// A lot of a known mass.
[[nodiscard]] Lot lot(units::Mass mass, units::VolumeStrength strength);

/// Its share of ethanol by mass; zero for an empty lot.
[[nodiscard]] units::MassFraction mass_fraction(const Lot& lot);
/// Its strength by volume at 20 °C; zero for an empty lot.
[[nodiscard]] units::VolumeStrength strength(const Lot& lot);
/// Its volume at `t` (-20 to 40 °C).
[[nodiscard]] units::Volume volume(const Lot& lot,
                                   units::Temperature t = units::Temperature::celsius(20.0));
/// Volume of its ethanol alone at 20 °C: the litres of pure alcohol of a ledger.
[[nodiscard]] units::Volume pure_alcohol(const Lot& lot);
/// Mass of ethanol in a volume of pure alcohol at 20 °C.
[[nodiscard]] units::Mass ethanol_in(units::Volume pure_alcohol);

}  // namespace lynearm::spirit
