// Quantities counted by amount of substance: what vapour-liquid equilibrium is written in.
// Kept apart from units/ because nobody meets them beside a still.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::vapour {

/// Base mole.
class AmountOfSubstance : public units::Amount<AmountOfSubstance> {
 public:
  constexpr AmountOfSubstance() = default;
  static constexpr AmountOfSubstance raw(double v) { return AmountOfSubstance(v); }
  static constexpr AmountOfSubstance moles(double v) { return AmountOfSubstance(v); }
  constexpr double moles() const { return base_; }

 private:
  constexpr explicit AmountOfSubstance(double v) : Amount<AmountOfSubstance>(v) {}
};

/// Base joule per mole.
class MolarEnthalpy : public units::Amount<MolarEnthalpy> {
 public:
  constexpr MolarEnthalpy() = default;
  static constexpr MolarEnthalpy raw(double v) { return MolarEnthalpy(v); }
  static constexpr MolarEnthalpy joules_per_mole(double v) { return MolarEnthalpy(v); }
  constexpr double joules_per_mole() const { return base_; }

 private:
  constexpr explicit MolarEnthalpy(double v) : Amount<MolarEnthalpy>(v) {}
};

/// Base joule per mole and kelvin.
class MolarHeatCapacity : public units::Amount<MolarHeatCapacity> {
 public:
  constexpr MolarHeatCapacity() = default;
  static constexpr MolarHeatCapacity raw(double v) { return MolarHeatCapacity(v); }
  static constexpr MolarHeatCapacity joules_per_mole_kelvin(double v) {
    return MolarHeatCapacity(v);
  }
  constexpr double joules_per_mole_kelvin() const { return base_; }

 private:
  constexpr explicit MolarHeatCapacity(double v) : Amount<MolarHeatCapacity>(v) {}
};

/// Molar gas constant, J/(mol K): SI, exact.
inline constexpr double gas_constant_J_per_mol_K = 8.31446261815324;

}  // namespace lynearm::vapour
