// What a hydrometer for wort shows in a warm or cold wort, and the gravity at 20 °C behind it.
//
// The glass floats to the density around it and has swollen itself; the wash then shrinks or
// swells to 20 °C as water does, a little more with its extract. Its scale may count specific
// gravity 20/20, specific gravity 60/60 °F or °P: three overloads, so that a figure cannot be
// read on the wrong one. Leaves out gas bubbles and grain, which lift the glass: degas and
// strain first.
#pragma once

#include "spirit/strength.hpp"
#include "units/quantity.hpp"

namespace lynearm::wort {

/// A hydrometer graduated in specific gravity or in °P.
struct Saccharometer {
  units::Temperature reference =
      units::Temperature::celsius(20.0);  ///< where its scale is true
  double glass_expansion_per_K = 25e-6;   ///< soda-lime glass, OIML R 44 (1985)
};

/// Gravity 20/20 of a wort or wash that shows `reading` at `t`.
///
/// reading    0.970 to 1.170, the scale's figure against water at the glass's reference
/// t          0 to 60 °C
/// throws     InputError ("reading", "temperature") outside the ranges
/// accuracy   simulated against the float's own balance (inverse below); the expansion of the
///            wort is that of density(), from memory. With 8 % alcohol in it a wash expands
///            more than wort: at 30 °C the result is then low by about 0.0004 (our estimate)
[[nodiscard]] units::SpecificGravity true_gravity(units::SpecificGravity reading,
                                                  units::Temperature t,
                                                  const Saccharometer& instrument = {});

/// The same from a glass graduated in SG 60/60 °F, true at 60 °F.
[[nodiscard]] units::SpecificGravity true_gravity(spirit::SpecificGravity60F reading,
                                                  units::Temperature t,
                                                  double glass_expansion_per_K = 25e-6);

/// The same from a glass graduated in °P: the extract of the wort in which it would float so at
/// the glass's reference.
///
/// reading    -7.7 (SG 0.970) to 38.3 °P (SG 1.170)
/// throws     InputError ("reading", "temperature") outside the ranges
[[nodiscard]] units::SpecificGravity true_gravity(units::Plato reading, units::Temperature t,
                                                  const Saccharometer& instrument = {});

/// What each would show: inverses of true_gravity() to 1e-12; of the last to 1e-9 °P.
[[nodiscard]] units::SpecificGravity shown(units::SpecificGravity gravity, units::Temperature t,
                                           const Saccharometer& instrument = {});
[[nodiscard]] spirit::SpecificGravity60F shown_60F(units::SpecificGravity gravity,
                                                   units::Temperature t,
                                                   double glass_expansion_per_K = 25e-6);
[[nodiscard]] units::Plato shown_plato(units::SpecificGravity gravity, units::Temperature t,
                                       const Saccharometer& instrument = {});

}  // namespace lynearm::wort
