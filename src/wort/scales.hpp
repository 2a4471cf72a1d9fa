// The scales on which a wort's extract is stated, each a type of its own, and how they convert.
//
// Plato             % extract by mass (units/)
// Brix              % sucrose by mass. The same count as Plato and Balling: a wort of 12 °P has
//                   the density of a 12 % sucrose solution, by the definition of both
// SpecificGravity   20/20 °C, in vacuum (units/)
// ApparentGravity   20/20 °C as weighed in air: what NBS and ASBC tables of extract count in
// SpecificGravity60F   60/60 °F, in vacuum (spirit/strength.hpp)
// RefractiveIndex   of sucrose at 20 °C: what a Brix refractometer is graduated in
//
// How far they part. The first two columns in SG 0.0001; the others in 0.001 °P: the extract
// that source gives for our density at the extract of the row, less that extract. Ours is the
// NBS cubic with its offset at water taken out (wort/gravity.hpp).
//   °P   in air   60/60 °F   ASBC cubic   CRC Handbook   one parameter   (463 - 205 S)(S - 1)
//    5    +0.2      +0.8         0             -4             +24               -3
//   10    +0.5      +1.6         0             -2             +22               -1
//   12    +0.6      +1.9         0            +17             +15                0
//   20    +1.0      +3.2        -1            +17             -50               -5
//   30    +1.6      +5.1       -25            +11            -220             -102
// CRC prints 13 of these units a digit either way; the one parameter is Buhl's 260.4 - 260.4/S.
// An SG 60/60 glass taken for a 20/20 one makes 20 °P 20.08; air forgotten, 20.02.
#pragma once

#include "spirit/density.hpp"
#include "spirit/strength.hpp"
#include "units/quantity.hpp"

namespace lynearm::wort {

/// % sucrose by mass, as sugar refractometers and tables count.
class Brix : public units::Amount<Brix> {
 public:
  constexpr Brix() = default;
  static constexpr Brix raw(double v) { return Brix(v); }
  static constexpr Brix degrees(double v) { return Brix(v); }
  constexpr double degrees() const { return base_; }

 private:
  constexpr explicit Brix(double v) : Amount<Brix>(v) {}
};

/// Weight of a volume of wort in air over that of as much water, both at 20 °C.
class ApparentGravity : public units::Amount<ApparentGravity> {
 public:
  constexpr ApparentGravity() = default;
  static constexpr ApparentGravity raw(double v) { return ApparentGravity(v); }
  static constexpr ApparentGravity ratio(double v) { return ApparentGravity(v); }
  constexpr double ratio() const { return base_; }

 private:
  constexpr explicit ApparentGravity(double v) : Amount<ApparentGravity>(v) {}
};

/// Exact: both count grams in a hundred grams.
[[nodiscard]] constexpr Brix brix(units::Plato extract) {
  return Brix::degrees(extract.degrees());
}
[[nodiscard]] constexpr units::Plato plato(Brix brix) {
  return units::Plato::degrees(brix.degrees());
}

/// Gravity in air of 1.2 kg/m³ and back: exact, for any gravity. At 60 °F the same factor holds
/// to 1e-7. The buoyancy of the weights cancels.
[[nodiscard]] ApparentGravity apparent_gravity(units::SpecificGravity gravity);
[[nodiscard]] units::SpecificGravity specific_gravity(ApparentGravity gravity);

/// Density over that of water, both at 60 °F, of a wort.
///
/// extract    -7.7 to 40 °P; below 0 a wash is taken to swell as water does, so that the figure
///            is that of 20/20
/// throws     InputError ("extract") outside the range
/// accuracy   of the expansion in wort/gravity.hpp, from memory: about 0.0001 at 20 °P
[[nodiscard]] spirit::SpecificGravity60F specific_gravity_60F(units::Plato extract);

/// Inverse of specific_gravity_60F(), to 1e-11 °P.
///
/// gravity    0.970 to that of 40 °P (about 1.1793)
/// throws     InputError ("gravity") outside the range
[[nodiscard]] units::Plato plato(spirit::SpecificGravity60F gravity);

/// Refractive index of a sucrose solution (sodium D line, against air).
///
/// sucrose    0 to 40
/// t          0 to 40 °C
/// throws     InputError ("extract", "temperature")
/// accuracy   at 20 °C the ICUMSA scale within 0.000005 (0.003 Bx) at the 12 points at hand
///            from 5 to 40, six of them from memory; the CRC Handbook's four-digit rows within
///            0.00006 (tests/published/icumsa_sucrose_test.cpp, crc_sucrose_test.cpp). At other
///            temperatures, against the international correction table (from memory): 0.035 Bx
///            to 20 Bx at 10 to 30 °C, 0.10 Bx to 40
/// source     refractions of water and sucrose (Lorentz and Lorenz) add by mass, over the
///            density of wort/gravity.hpp; the sucrose's a cubic fitted to those 12 points.
///            Water's change with temperature: spirit/refractometer.hpp. The sucrose's own
///            refraction is held: no constant is fitted to temperature
[[nodiscard]] units::RefractiveIndex refractive_index(
    Brix sucrose, units::Temperature t = spirit::reference_20C);

/// The sucrose solution of an index. Inverse of refractive_index() to 1e-10 Bx.
///
/// index      from that of water (to 0.00005 below counts as water) to that of 40 Bx at `t`
/// throws     InputError ("index", "temperature")
/// source     the often met polynomial of the fifth degree reads 0.018 to 0.021 Bx below the
///            ICUMSA table, its coefficients being printed too short; with 0.01955 added it
///            agrees with ours within 0.003 Bx from 5 to 40
[[nodiscard]] Brix brix(units::RefractiveIndex index,
                        units::Temperature t = spirit::reference_20C);

/// Specific refraction of sucrose dissolved to `extract` in water: its share in that of the
/// solution. extract: 0 to 40 °P (not checked).
[[nodiscard]] double extract_refraction_mL_per_g(units::Plato extract);

}  // namespace lynearm::wort
