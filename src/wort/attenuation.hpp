// How far a wort has fermented, and the alcohol that implies: extract lost against alcohol
// made, by Balling's factors for beer (2.0665 g extract give 1 g alcohol, 0.9565 g gas and
// 0.11 g yeast). For a wash that ferments dry, the mass balance of ferment/ says more; these
// are for reading gravities. Short formulas linear in the gravities are left out: they were
// fitted to beer and part by over 1 %vol at SG 1.100.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::wort {

/// Alcohol made when `original` has fermented to `real`.
///
/// original   0 to 40 °P, the wort before
/// real       0 to `original`: the extract truly left (not as a hydrometer shows it)
/// returns    g ethanol in 100 g fermented wort, as a share
/// throws     InputError outside the ranges
/// accuracy   against brews averaged in Cutaia et al. 2009: original extract within 0.23, 0.03
///            and 0.10 °P of the three means (tests/published/cutaia_2009_test.cpp)
/// source     Balling's formula as in Cutaia, Reid and Speers 2009, J. Inst. Brew. 115:318
[[nodiscard]] units::Share alcohol_by_mass(units::Plato original, units::Plato real);

/// The wort that gave `alcohol` (g in 100 g) and leaves `real`. Inverse of alcohol_by_mass().
[[nodiscard]] units::Plato original_extract(units::Share alcohol, units::Plato real);

/// Extract truly left from what a hydrometer shows (`apparent`, lowered by alcohol).
///
/// original   0 to 40 °P
/// apparent   -7 °P to `original`
/// throws     InputError outside the ranges
/// accuracy   within 0.01 and 0.04 °P of the two means in Cutaia et al. 2009 that print both
/// source     RE = (q OE + AE)/(1 + q), q = 0.22 + 0.001 OE: from memory. Fitted to beer; for
///            a wash that ends under SG 1.000 it can fall a little below zero, and says so by
///            returning a negative extract
[[nodiscard]] units::Plato real_extract(units::Plato original, units::Plato apparent);

/// Inverse of real_extract().
[[nodiscard]] units::Plato apparent_extract(units::Plato original, units::Plato real);

/// Share of the original extract truly fermented, allowing for the mass that left as gas.
/// source     RDF as in Cutaia et al. 2009: (OE - RE)/OE / (1 - 0.005161 RE)
[[nodiscard]] units::Share real_attenuation(units::Plato original, units::Plato real);

/// Share of the extract gone as a hydrometer shows it: (OE - AE)/OE. Over 100 % for a wash
/// under SG 1.000.
[[nodiscard]] units::Share apparent_attenuation(units::Plato original, units::Plato apparent);

/// Strength by volume at 20 °C of a fermented wort: exact by definition, from the alcohol by
/// mass and the density of the whole.
///
/// alcohol    g ethanol in 100 g
/// final      gravity of the fermented wort
[[nodiscard]] units::VolumeStrength alcohol_by_volume(units::Share alcohol,
                                                      units::SpecificGravity final);

}  // namespace lynearm::wort
