// Air pressure at an altitude, and water's boiling point, by which a maker can find the day's
// pressure with a thermometer and a kettle. Model: U.S. Standard Atmosphere 1976. The weather
// moves the pressure by some 20 hPa either way, half a degree at the still head.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::vapour {

/// Mean air pressure at an altitude.
///
/// altitude   above sea level (geometric), -400 to 9000 m
/// throws     InputError outside
/// accuracy   the standard's own figures to 0.1 Pa (tests/vapour/atmosphere_test.cpp)
/// source     U.S. Standard Atmosphere 1976, layer of the troposphere
[[nodiscard]] units::Pressure standard_pressure(units::Length altitude);

/// Boiling point of pure water.
///
/// p          20 to 120 kPa; InputError outside
/// accuracy   Perry's vapour pressure (pure.hpp) boils 0.03 to 0.05 °C later than IAPWS-95
///            from 70 to 101 kPa (tests/vapour/atmosphere_test.cpp)
[[nodiscard]] units::Temperature water_boiling_point(units::Pressure p);

/// The pressure at which water boils at `t`: inverse of water_boiling_point().
/// throws     InputError when that pressure lies outside 20 to 120 kPa
[[nodiscard]] units::Pressure pressure_from_boiling_water(units::Temperature t);

}  // namespace lynearm::vapour
