// How a vessel cools by itself or with a coil (Newton): heat leaves in proportion to how much
// warmer it is than the room, and than the coil's water.
//
// Steam from an open surface does not follow Newton; over the few kelvins of a cooling it is
// near enough as an addition to the heat loss. Leaves out layering in an unstirred mash.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::mash {

/// What takes the heat away.
struct Cooling {
  units::HeatLoss vessel;  ///< to the room; with the lid off take the larger figure
  units::Temperature ambient;
  units::HeatLoss coil;           ///< to the coil's water; zero without one
  units::Temperature coil_water;  ///< its mean; not used without a coil
};

/// Where the vessel would settle at last.
[[nodiscard]] units::Temperature settling_temperature(const Cooling& cooling);

/// Temperature of `body` (contents and walls) after a time.
///
/// throws     InputError when the heat capacity or a loss is not above zero, or the time below
/// accuracy   exact for Newton's law
[[nodiscard]] units::Temperature temperature_after(units::Temperature start,
                                                   units::Duration time,
                                                   units::HeatCapacity body,
                                                   const Cooling& cooling);

/// Time from `start` to `end`. Inverse of temperature_after(), exact.
/// throws     InputError ("cooling.end") when `end` is not between the start and where it
/// settles
[[nodiscard]] units::Duration time_to_cool(units::Temperature start, units::Temperature end,
                                           units::HeatCapacity body, const Cooling& cooling);

/// The vessel's heat loss from a test: two temperatures and the time between, without a coil.
/// throws     InputError when the temperatures do not fall towards the ambient
[[nodiscard]] units::HeatLoss heat_loss_from_test(units::Temperature start,
                                                  units::Temperature end, units::Duration time,
                                                  units::HeatCapacity body,
                                                  units::Temperature ambient);

/// Time to heat `body` from `start` to `end` with `heat` going in, against the losses.
/// throws     InputError ("heat.power") when the losses win before `end`, with what is needed
[[nodiscard]] units::Duration time_to_heat(units::Temperature start, units::Temperature end,
                                           units::HeatCapacity body, units::Power heat,
                                           units::HeatLoss loss, units::Temperature ambient);

}  // namespace lynearm::mash
