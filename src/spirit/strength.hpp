// The ways a strength is stated, each a type of its own, and their exact conversions through
// the mass fraction, which does not change with temperature.
//
// VolumeStrength        % by volume at 20 °C, OIML R 22 (pure ethanol 789.24 kg/m³)
// VolumeStrength15C     % by volume at 15 °C, older European tables
// VolumeStrength60F     % by volume at 60 °F, 27 CFR 30.11
// Proof                 United States proof: twice the % by volume at 60 °F (27 CFR 30.11)
// SpecificGravity       density over that of water, both at 20 °C, in vacuum
// SpecificGravity60F    the same at 60 °F (27 CFR 30.11)
// MassFraction, MoleFraction
//
// How far they part: 50 % by volume at 20 °C is 49.94 at 60 °F (99.88 proof) and 49.93 at 15
// °C; the most they part is 0.073 (60 °F) and 0.083 (15 °C), near 30 %.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::spirit {

/// Molar masses, g/mol: IUPAC standard atomic weights.
inline constexpr double ethanol_molar_mass_g_per_mol = 46.06844;
inline constexpr double water_molar_mass_g_per_mol = 18.01528;

/// % by volume with both volumes taken at 15 °C or 60 °F; `Reference` only tells them apart.
template <class Reference>
class VolumeStrengthAt : public units::Amount<VolumeStrengthAt<Reference>> {
 public:
  constexpr VolumeStrengthAt() = default;
  static constexpr VolumeStrengthAt raw(double v) { return VolumeStrengthAt(v); }
  static constexpr VolumeStrengthAt fraction(double v) { return VolumeStrengthAt(v); }
  static constexpr VolumeStrengthAt percent(double v) { return VolumeStrengthAt(v * 1e-2); }
  constexpr double fraction() const { return this->base_; }
  constexpr double percent() const { return this->base_ / 1e-2; }

 private:
  constexpr explicit VolumeStrengthAt(double v)
      : units::Amount<VolumeStrengthAt<Reference>>(v) {}
};
using VolumeStrength15C = VolumeStrengthAt<struct At15C>;
using VolumeStrength60F = VolumeStrengthAt<struct At60F>;

/// Density over that of water, both at 60 °F, in vacuum.
class SpecificGravity60F : public units::Amount<SpecificGravity60F> {
 public:
  constexpr SpecificGravity60F() = default;
  static constexpr SpecificGravity60F raw(double v) { return SpecificGravity60F(v); }
  static constexpr SpecificGravity60F ratio(double v) { return SpecificGravity60F(v); }
  constexpr double ratio() const { return base_; }

 private:
  constexpr explicit SpecificGravity60F(double v) : Amount<SpecificGravity60F>(v) {}
};

/// United States proof. 200 is pure ethanol.
class Proof : public units::Amount<Proof> {
 public:
  constexpr Proof() = default;
  static constexpr Proof raw(double v) { return Proof(v); }
  static constexpr Proof degrees(double v) { return Proof(v); }
  constexpr double degrees() const { return base_; }

 private:
  constexpr explicit Proof(double v) : Amount<Proof>(v) {}
};

/// % by volume at 20 °C of a mixture. Exact by the definition of OIML R 22.
/// throws     InputError outside 0 to 1
[[nodiscard]] units::VolumeStrength volume_strength(units::MassFraction ethanol);

/// Mixture of a strength by volume at 20 °C. Inverse of volume_strength() to 1e-14.
/// throws     InputError outside 0 to 100 %vol
[[nodiscard]] units::MassFraction mass_fraction(units::VolumeStrength strength);

[[nodiscard]] Proof proof(units::MassFraction ethanol);
/// throws     InputError outside 0 to 200 proof
[[nodiscard]] units::MassFraction mass_fraction(Proof proof);

[[nodiscard]] VolumeStrength15C volume_strength_15C(units::MassFraction ethanol);
[[nodiscard]] VolumeStrength60F volume_strength_60F(units::MassFraction ethanol);
/// throws     InputError outside 0 to 100 %vol
[[nodiscard]] units::MassFraction mass_fraction(VolumeStrength15C strength);
[[nodiscard]] units::MassFraction mass_fraction(VolumeStrength60F strength);

/// Specific gravity of a mixture at 20 °C and at 60 °F; water is 1.
[[nodiscard]] units::SpecificGravity specific_gravity(units::MassFraction ethanol);
[[nodiscard]] SpecificGravity60F specific_gravity_60F(units::MassFraction ethanol);
/// Inverse of the two above, to 1e-12.
/// throws     InputError outside that of pure ethanol (0.7907; 0.7939 at 60 °F) to 1
[[nodiscard]] units::MassFraction mass_fraction(units::SpecificGravity gravity);
[[nodiscard]] units::MassFraction mass_fraction(SpecificGravity60F gravity);

[[nodiscard]] units::MoleFraction mole_fraction(units::MassFraction ethanol);
[[nodiscard]] units::MassFraction mass_fraction(units::MoleFraction ethanol);

}  // namespace lynearm::spirit
