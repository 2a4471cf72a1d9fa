// Mending a mash that missed its temperature, with hot or cold water.
//
// The exact balance of mash, vessel and water, cut short by the room left in the vessel. The
// advice is two halves with a reading between: a mash just stirred is never even, and what was
// poured in cannot be taken out.
#pragma once

#include "mash/heat.hpp"
#include "units/quantity.hpp"

namespace lynearm::mash {

enum class Mend { nothing, hot_water, cold_water };

struct Waters {
  units::Temperature cold;
  units::Temperature hot;
};

struct Correction {
  Mend with = Mend::nothing;
  units::Volume wanted;            ///< for the whole way, measured at the water's temperature
  units::Volume first_half;        ///< give this, stir, wait, read again
  units::Temperature after_first;  ///< what to expect then
  units::Volume at_most;           ///< what the room in the vessel allows of `wanted`
  units::Temperature reached;      ///< with `at_most`: the target, or as far as it gets
  bool room_is_short = false;      ///< `at_most` is less than `wanted`
};

/// How long to stir and wait before the reading between the halves (common practice, no
/// source).
inline constexpr units::Duration wait_between_halves = units::Duration::minutes(3.0);

/// mash       what stands in the vessel, at the measured temperature
/// wall       of the vessel, at the mash's temperature
/// target     30 to 95 °C
/// brim       working volume of the vessel
/// near_enough how close is close enough: no advice is given inside it
/// throws     InputError ("waters.hot", "waters.cold") when the water lies on the wrong side of
///            the target or within 1 K of it
[[nodiscard]] Correction correct(
    const Contents& mash, units::HeatCapacity wall, units::Temperature target,
    const Waters& waters, units::Volume brim,
    units::TemperatureChange near_enough = units::TemperatureChange::kelvins(0.2));

}  // namespace lynearm::mash
