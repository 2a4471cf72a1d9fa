// The ways a strength is stated, and their exact conversions through the mass fraction, which
// does not change with temperature.
//
// VolumeStrength   % by volume at 20 °C, OIML R 22 (pure ethanol 789.24 kg/m³)
// Proof            United States proof: twice the % by volume at 60 °F (27 CFR 30.11)
#pragma once

#include "units/quantity.hpp"

namespace lynearm::spirit {

/// Molar masses, g/mol: IUPAC standard atomic weights.
inline constexpr double ethanol_molar_mass_g_per_mol = 46.06844;
inline constexpr double water_molar_mass_g_per_mol = 18.01528;

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

[[nodiscard]] units::MoleFraction mole_fraction(units::MassFraction ethanol);
[[nodiscard]] units::MassFraction mass_fraction(units::MoleFraction ethanol);

}  // namespace lynearm::spirit
