// Extract and gravity: how much is dissolved in a wort, and what its density says about it.
//
// Model: the sucrose table of NBS Circular 440 in its published cubic, which every scale of
// extract (Plato, Balling, Brix) counts by; a wort's own sugars are taken to weigh like
// sucrose, as the trade's tables do. Volumes at other temperatures follow water's expansion.
// A Wort is kept as two masses, which add exactly. Leaves out suspended grain and gas.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::wort {

/// Density of water at 20 °C, the same as in the general formula of OIML R 22 (1973).
inline constexpr units::Density water_at_20C =
    units::Density::kilograms_per_cubic_metre(998.20123);
/// Strongest wort the sucrose cubic covers.
inline constexpr units::Plato strongest = units::Plato::degrees(40.0);
/// Lightest gravity plato() reads: lighter than any fermented wash before distilling.
inline constexpr units::SpecificGravity lightest = units::SpecificGravity::ratio(0.970);

/// Extract that gives a specific gravity.
///
/// gravity    SG 20/20 in vacuum, 0.970 to that of 40 °P (about 1.1786)
/// returns    degrees Plato. Below SG 1.000 the straight continuation of the curve at 1.000:
///            an apparent extract, negative, our convention for fermented washes
/// throws     InputError ("gravity") outside the range
/// accuracy   against the densities of sucrose solutions of the CRC Handbook, 1 to 40 %: worst
///            0.020 °P, RMS 0.012 °P over 22 rows printed to 0.013 °P either way
///            (tests/published/crc_sucrose_test.cpp)
/// source     NBS Circular 440 sucrose table, cubic in apparent SG 20/20 (in air), its RMS
///            0.0009; air buoyancy 1.2 kg/m³. The cubic reads -0.0048 at SG 1.000: that offset
///            is taken out, fading to nothing at SG 1.008, so that water has no extract
[[nodiscard]] units::Plato plato(units::SpecificGravity gravity);

/// Gravity of a wort. Inverse of plato(), put back to within 1e-11 °P.
///
/// extract    -7.7 (the extract at SG 0.970) to 40 °P
/// throws     InputError ("extract") outside the range
[[nodiscard]] units::SpecificGravity specific_gravity(units::Plato extract);

/// Density of water at `t`, 0 to 100 °C, scaled to water_at_20C.
///
/// throws     InputError ("temperature") outside the range
/// accuracy   compared at 4, 25, 60, 80 and 100 °C with the usual table from memory: 0.03 kg/m³
/// source     Kell 1975 (spirit/hot_water.hpp)
[[nodiscard]] units::Density water_density(units::Temperature t);

/// Density of a wort at `t`, 0 to 100 °C.
///
/// accuracy   exact at 20 °C; elsewhere in doubt by about 0.2 % at 90 °C and 20 °P. Agrees with
///            "wort shrinks 4 % from boiling to 20 °C" (common practice, no source)
/// source     expansion of water, and of the extract by relative_expansion() below
/// throws     InputError outside the ranges
[[nodiscard]] units::Density density(units::Plato extract, units::Temperature t);

/// How much more a wort swells from 20 °C to `t` than water does, as a factor near 1.
///
/// source     our fit, P (3.2e-6 d - 3.7e-8 d²) with d = t - 20 °C, to the temperature
///            corrections of a saccharometer (30 °C: 0.61 at 0 and 0.72 at 20 %; 60 °C: 3.6 and
///            3.9), from memory. A flat 1e-5 per kelvin and °P, also met, was set aside: it
///            would shrink a 12 °P wort by 5 % from boiling, where practice finds 4 %
[[nodiscard]] double relative_expansion(units::Plato extract, units::Temperature t);

/// A wort as what it is made of: water, and extract dissolved in it; both zero or more. The
/// twin of spirit::Lot: masses add exactly, volumes do not.
struct Wort {
  units::Mass water;
  units::Mass extract;

  friend constexpr Wort operator+(Wort a, Wort b) {
    return {a.water + b.water, a.extract + b.extract};
  }
  friend constexpr Wort operator-(Wort a, Wort b) {
    return {a.water - b.water, a.extract - b.extract};
  }
  friend constexpr Wort operator*(Wort a, double share) {
    return {a.water * share, a.extract * share};
  }
  [[nodiscard]] constexpr units::Mass mass() const { return water + extract; }
};

/// Its extract, % by mass; zero for an empty wort.
[[nodiscard]] units::Plato plato(const Wort& wort);
/// Its gravity; 1 for an empty wort. Throws InputError above 40 °P.
[[nodiscard]] units::SpecificGravity specific_gravity(const Wort& wort);
/// Its volume at `t`, 0 to 100 °C. Throws InputError above 40 °P.
[[nodiscard]] units::Volume volume(const Wort& wort,
                                   units::Temperature t = units::Temperature::celsius(20.0));

/// The wort that fills `volume` at `t`. extract: 0 to 40 °P; volume: zero or more.
[[nodiscard]] Wort wort(units::Volume volume, units::Plato extract,
                        units::Temperature t = units::Temperature::celsius(20.0));
/// The wort of a known mass.
[[nodiscard]] Wort wort(units::Mass mass, units::Plato extract);
/// The water to add (positive) or boil away (negative) to bring `wort` to `to`, above 0 °P.
[[nodiscard]] units::Mass water_to_reach(const Wort& wort, units::Plato to);

}  // namespace lynearm::wort
