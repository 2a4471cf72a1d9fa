// The heat of a fermentation and how far it lifts the vessel above its room. pace.hpp couples
// the two, because a warmer wash ferments faster; here are the parts. Leaves out the heat that
// evaporation into the gas takes (a few per cent).
#pragma once

#include "units/quantity.hpp"
#include "wort/gravity.hpp"

namespace lynearm::ferment {

/// kJ per kg hexose, 500 to 680. Williams 1982, Am. J. Enol. Vitic., about 99 kJ/mol = 550 (the
/// number from memory); Gee and Ramirez 1988 use 506 (glucose) to 717 (maltotriose).
inline constexpr double heat_kJ_per_kg_hexose = 560.0;

[[nodiscard]] units::Energy heat(units::Mass hexose,
                                 double kJ_per_kg_hexose = heat_kJ_per_kg_hexose);

/// Heat capacity of a wort: water 4.18, extract 1.4 kJ/(kg K), from memory.
[[nodiscard]] units::HeatCapacity heat_capacity(const wort::Wort& wort);

/// Rise with no heat lost: about 1.3 K for each °P fermented.
[[nodiscard]] units::TemperatureChange adiabatic_rise(
    units::Mass hexose, units::HeatCapacity capacity,
    double kJ_per_kg_hexose = heat_kJ_per_kg_hexose);

/// Rise at which a bare vessel sheds `power`.
[[nodiscard]] units::TemperatureChange steady_rise(units::Power power, units::HeatLoss loss);

/// Heat loss of a bare closed vessel of this volume in still air: 5 W/K at 20 L to 17 W/K at
/// 200 L, from memory, a power law between.
///
/// throws     InputError outside 1 to 2000 L
[[nodiscard]] units::HeatLoss usual_heat_loss(units::Volume volume);

}  // namespace lynearm::ferment
