// The temperature from which the air over a spirit can burn. Model: the partial pressure of
// ethanol over the liquid reaches the lower limit of ignition in air, 3.3 % by volume; the
// same equilibrium as in the still. Information only; a product's class is tested, not
// computed.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::vapour {

/// Lower limit of ignition of ethanol in air, by volume, as commonly listed.
inline constexpr units::Share least_to_burn = units::Share::percent(3.3);

/// Flash temperature of a mixture of ethanol and water.
///
/// strength   3 to 100 %vol at 20 °C; InputError outside
/// p          20 to 120 kPa
/// accuracy   ± 5 °C: against the commonly listed values 5 to 96 %vol see
///            tests/vapour/flash_test.cpp. NRTL is used well below the boil here.
[[nodiscard]] units::Temperature flash_temperature(
    units::VolumeStrength strength, units::Pressure p = units::Pressure::atmospheres(1.0));

}  // namespace lynearm::vapour
