// Obscuration: what is dissolved in a spirit (oak, sugar, caramel) makes it denser, so that an
// alcoholmeter reads it weaker than it is.
//
// Model: the volume of the ethanol and water (OIML R 22) plus the solids' own volume, a fixed
// one per gram at every strength and temperature. Nothing is fitted. True strength is the pure
// alcohol in a litre of the spirit as it is, solids and all: what a distillate made up to the
// sample's volume shows, and so what the law means. Leaves out how ethanol and solids press on
// each other, surface tension, and whatever distils off with the residue.
#pragma once

#include "spirit/density.hpp"
#include "spirit/lot.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// Volume that a gram of dissolved solids takes, mL/g. Sucrose in water takes 0.61 to 0.63 (CRC
/// Handbook, 102nd ed.: tests/spirit/obscuration_test.cpp). Extract of oak is a mixture of
/// sugars, tannin and lignin; its volume is not known to us. Between 0.60 and 0.70 is our
/// estimate: from 6 % more obscuration to a quarter less.
inline constexpr double sucrose_mL_per_g = 0.62;
/// What the functions take: under salts, and over any sugar or phenol. Above it water itself,
/// beside strong ethanol, would take no more room than solids, and nothing could be told.
inline constexpr double least_solids_mL_per_g = 0.30;
inline constexpr double most_solids_mL_per_g = 0.75;
/// The most solids reckoned with. More is a liqueur: gauge it by distilling.
inline constexpr units::MassConcentration most_residue =
    units::MassConcentration::grams_per_litre(50.0);

/// A spirit as masses of ethanol, water and dissolved solids, all zero or more. Adds exactly.
struct ObscuredLot {
  Lot spirit;
  units::Mass solids;

  friend constexpr ObscuredLot operator+(ObscuredLot a, ObscuredLot b) {
    return {a.spirit + b.spirit, a.solids + b.solids};
  }
  friend constexpr ObscuredLot operator-(ObscuredLot a, ObscuredLot b) {
    return {a.spirit - b.spirit, a.solids - b.solids};
  }
  friend constexpr ObscuredLot operator*(ObscuredLot a, double share) {
    return {a.spirit * share, a.solids * share};
  }
  [[nodiscard]] constexpr units::Mass mass() const { return spirit.mass() + solids; }
};

// In all functions below: `solids_mL_per_g` is 0.30 to 0.75, and InputError ("solids_mL_per_g")
// is thrown outside it.

/// Its volume at `t` (-20 to 40 °C).
[[nodiscard]] units::Volume volume(const ObscuredLot& lot, units::Temperature t = reference_20C,
                                   double solids_mL_per_g = sucrose_mL_per_g);

/// Its density at `t` (-20 to 40 °C). throws InputError ("spirit") for an empty lot.
[[nodiscard]] units::Density density(const ObscuredLot& lot,
                                     units::Temperature t = reference_20C,
                                     double solids_mL_per_g = sucrose_mL_per_g);

/// What evaporates to dryness leaves: solids in a litre of the spirit at 20 °C; zero for an
/// empty lot. 1 g/L is 100 mg/100 mL.
[[nodiscard]] units::MassConcentration residue(const ObscuredLot& lot,
                                               double solids_mL_per_g = sucrose_mL_per_g);

/// Pure alcohol in a litre of it, both at 20 °C; zero for an empty lot.
[[nodiscard]] units::VolumeStrength true_strength(const ObscuredLot& lot,
                                                  double solids_mL_per_g = sucrose_mL_per_g);

/// What an alcoholmeter shows in it at 20 °C: the strength of the pure spirit of its density.
/// throws InputError ("spirit") when it is denser than water, so that nothing can be read.
[[nodiscard]] units::VolumeStrength apparent_strength(
    const ObscuredLot& lot, double solids_mL_per_g = sucrose_mL_per_g);

/// The lot that fills `volume` at `t` with spirit of a true strength and a residue at 20 °C.
///
/// volume     zero or more
/// residue    0 to 50 g/L
/// throws     InputError ("volume", "strength", "residue", "temperature") outside, or when
///            ethanol and solids together leave no room for it
[[nodiscard]] ObscuredLot obscured_lot(units::Volume volume,
                                       units::VolumeStrength true_strength,
                                       units::MassConcentration residue,
                                       units::Temperature t = reference_20C,
                                       double solids_mL_per_g = sucrose_mL_per_g);

/// True strength of a spirit from what the alcoholmeter shows and the evaporated residue.
///
/// apparent   0 to 100 %vol, corrected to 20 °C
/// residue    0 to 50 g/L at 20 °C
/// returns    at least `apparent`; equal without residue
/// throws     InputError ("apparent", "residue") outside, or when no spirit holds so much
///            solids and still reads so
/// accuracy   closed form, no iteration. 100 mg/100 mL hide, in United States proof against the
///            rule's 0.4 (27 CFR 30.32): see obscuration_rule.hpp
[[nodiscard]] units::VolumeStrength true_strength(units::VolumeStrength apparent,
                                                  units::MassConcentration residue,
                                                  double solids_mL_per_g = sucrose_mL_per_g);

/// What the alcoholmeter shows, at 20 °C, in a spirit of a true strength and a residue. Inverse
/// of the above; closed form.
///
/// throws     InputError ("strength", "residue") outside, or ("apparent") below 0 %vol
[[nodiscard]] units::VolumeStrength apparent_strength(
    units::VolumeStrength true_strength, units::MassConcentration residue,
    double solids_mL_per_g = sucrose_mL_per_g);

/// The residue that parts a true strength (by distilling) from an apparent one. Root of
/// apparent_strength() over the residue, put back to within 1e-9 kg/m³.
///
/// throws     InputError ("strength") when `true_strength` is under `apparent`, or further
///            above it than 50 g/L explain
[[nodiscard]] units::MassConcentration residue(units::VolumeStrength apparent,
                                               units::VolumeStrength true_strength,
                                               double solids_mL_per_g = sucrose_mL_per_g);

}  // namespace lynearm::spirit
