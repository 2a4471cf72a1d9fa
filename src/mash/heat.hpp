// Heat of grain, water and walls: what a mash holds, and where bodies brought together settle.
//
// Specific heats are constants, so a balance is exact and linear: water 4.18 kJ/(kg K), grain
// 1.59 + 2.2 x moisture, dissolved sugar 1.25. Dry grain gives off heat when it first takes up
// water (hydration heat); starch's own heat of gelatinisation is left out (some 10 kJ/kg).
#pragma once

#include <span>

#include "units/quantity.hpp"

namespace lynearm::mash {

/// Specific heat of water, J/(kg K): its value near 65 °C; within 0.7 % from 5 to 95 °C.
inline constexpr double water_J_per_kg_K = 4180.0;
/// Specific heat of sugar in solution, J/(kg K): from memory, crystalline sucrose.
inline constexpr double sugar_J_per_kg_K = 1250.0;
/// Heat to evaporate water near its boil, J/kg: from memory.
inline constexpr double evaporation_J_per_kg = 2.257e6;

/// Heat capacity of grain as it comes.
///
/// moisture   0 to 30 %
/// throws     InputError ("grain.moisture") outside it
/// accuracy   within 0.01 of water's specific heat of the seven rows below (tests/published/
///            brewing_room_book_1984_test.cpp)
/// source     line through the table of the Brewing Room Book 1984/85 as quoted elsewhere
[[nodiscard]] units::HeatCapacity heat_capacity_of_grain(units::Mass grain,
                                                         units::Share moisture);

/// Heat given off when dry grain is wetted.
///
/// moisture   0 to 30 %. Above 8 % our extrapolation: 6.5 kJ/kg at 13 %, none from 20 % on
/// throws     InputError ("grain.moisture") outside it
/// source     temperature rises of the same table, turned into heat at 2.6 L/kg
[[nodiscard]] units::Energy hydration_heat(units::Mass grain, units::Share moisture);

/// What stands in a vessel, without its walls.
struct Contents {
  units::Mass water;      ///< given as water; the grain's own moisture is not counted here
  units::Mass grain;      ///< as is, wetted, whether dissolved by now or not
  units::Share moisture;  ///< of the grain before it was wetted
  units::Mass sugar;      ///< dissolved from sugars, dry
  units::Temperature temperature;

  [[nodiscard]] units::Mass mass() const { return water + grain + sugar; }
  /// All water in it: given, and brought by the grain.
  [[nodiscard]] units::Mass all_water() const { return water + grain * moisture.fraction(); }
};

[[nodiscard]] units::HeatCapacity heat_capacity(const Contents& contents);

/// Room taken by a kg of dry grain in a mash, L: its true density is some 1.5 kg/L. Common
/// practice, no source; 0.65 to 0.70.
inline constexpr double grain_displacement_L_per_kg = 0.67;
/// Room taken by a kg of sugar dissolved in water, L: from memory, sucrose.
inline constexpr double sugar_displacement_L_per_kg = 0.62;

/// Volume: water at the density of its temperature, and what grain and sugar displace.
/// throws     InputError when the temperature is outside 0 to 100 °C
[[nodiscard]] units::Volume volume(const Contents& contents);

/// Both together, masses added, at the temperature where they settle. Hydration heat is the
/// caller's: only the caller knows whether the grain was dry.
[[nodiscard]] Contents together(const Contents& a, const Contents& b);

/// Water of that volume, measured at its own temperature.
[[nodiscard]] Contents water(units::Volume volume, units::Temperature t);

/// A body in a heat balance.
struct Body {
  units::HeatCapacity heat_capacity;
  units::Temperature temperature;
};

/// Where bodies brought together settle, with `released` heat (hydration positive, losses
/// negative) put in. Exact.
/// throws     InputError ("bodies") when they have no heat capacity
[[nodiscard]] units::Temperature mixing_temperature(std::span<const Body> bodies,
                                                    units::Energy released = {});

/// Surface of the liquid in a vessel as high as it is wide, filled to `volume`.
[[nodiscard]] units::Area open_surface(units::Volume volume);

/// Heat that leaves an open surface of hot mash in still air, by evaporation and contact.
///
/// t          20 to 100 °C
/// accuracy   order only: drawn through the middles of 0.5-0.9 kW/m² at 65 °C and 1.5-3 kW/m²
///            at 95 °C (from memory), in proportion to the vapour pressure of water
[[nodiscard]] units::Power open_surface_loss(units::Area surface, units::Temperature t);

/// Heat lost per kelvin by a bare, lidded metal vessel as high as it is wide, filled: 9 W/(m²
/// K) over the whole outside (textbook range 6 to 12, from memory). For a kit not yet measured.
[[nodiscard]] units::HeatLoss bare_heat_loss(units::Volume volume);

}  // namespace lynearm::mash
