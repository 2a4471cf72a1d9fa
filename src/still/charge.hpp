// What is put into the pot: ethanol, water, and what does not distil. Its volume cold and hot.
//
// To 40 °C the volume is that of OIML R 22; above, where that formula ends, it grows from its
// value at 40 °C as the two pure liquids side by side would: water by Kell (1975), ethanol by
// DIPPR 105. Dissolved extract takes 0.62 L per kg at any temperature. Leaves out suspended
// husk and yeast, and gas.
#pragma once

#include <array>
#include <optional>

#include "spirit/lot.hpp"
#include "units/quantity.hpp"
#include "vapour/boiling_curve.hpp"
#include "vapour/congener.hpp"
#include "vapour/molar.hpp"

namespace lynearm::still {

/// Grams of each congener, in the order of vapour::congeners().
struct CongenerAmounts {
  std::array<double, vapour::congener_count> grams{};
};

struct Charge {
  spirit::Lot spirit;
  units::Mass extract;  ///< dissolved, does not distil
  units::Temperature temperature = units::Temperature::celsius(20.0);
  std::optional<CongenerAmounts> congeners = std::nullopt;
};

/// Room taken by dissolved extract, L/kg: from the density of sugar solutions; our estimate.
inline constexpr double extract_litres_per_kg = 0.62;
/// Heat capacity of dissolved extract, kJ/(kg K): that of dissolved sugar, from memory.
inline constexpr double extract_kJ_per_kg_K = 1.4;

/// Volume of a lot.
///
/// t          -20 to 110 °C; the state of water below 0 °C is not looked at
/// throws     InputError("temperature") outside
/// accuracy   to 40 °C that of OIML R 22. Pure water at 100 °C: Kell's 958.4 kg/m³; a mixture
///            at the boil was not compared with measurements (excess expansion left out: below
///            0.5 %, our estimate)
/// source     OIML R 22; Kell, J. Chem. Eng. Data 20 (1975) 97, coefficients from memory;
///            Perry, 8th ed., DIPPR 105
[[nodiscard]] units::Volume hot_volume(const spirit::Lot& lot, units::Temperature t);

/// Volume of a charge, extract included. Range, errors and accuracy of hot_volume().
[[nodiscard]] units::Volume volume(const Charge& charge, units::Temperature t);

/// Heat capacity of the charge's dissolved extract.
[[nodiscard]] units::HeatCapacity extract_heat(const Charge& charge);

/// Amounts of substance in a lot, and the lot of amounts.
struct Moles {
  vapour::AmountOfSubstance ethanol;
  vapour::AmountOfSubstance water;
  [[nodiscard]] vapour::AmountOfSubstance total() const { return ethanol + water; }
  /// Zero for nothing.
  [[nodiscard]] units::MoleFraction fraction() const;
};
[[nodiscard]] Moles moles(const spirit::Lot& lot);
[[nodiscard]] spirit::Lot lot(const Moles& moles);

/// Where the charge boils on this curve. Extract is left out (below 0.1 °C, see
/// vapour/equilibrium.hpp).
/// throws     InputError("charge.spirit") when it holds no liquid
[[nodiscard]] units::Temperature boiling_temperature(const Charge& charge,
                                                     const vapour::BoilingCurve& curve);

/// Refuses a charge that cannot be distilled.
///
/// throws     InputError("charge.spirit") when a mass is below zero, when there is nothing, or
///            less than a millionth of it is alcohol
void require_distillable(const Charge& charge);

}  // namespace lynearm::still
