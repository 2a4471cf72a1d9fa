// From a cold charge to the boil: heat to charge and metal, and the time at the boiler's power
// against its losses. The vessel is one body whose heat capacity changes as it warms; its
// temperature follows Newton's law with a constant source. The first phase of a run
// (course.hpp) steps the same equation in time; here it is a sum, with the heats told apart.
// Leaves out the head and the heat of early vapour.
#pragma once

#include "still/charge.hpp"
#include "still/kit.hpp"
#include "units/quantity.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::still {

struct HeatUp {
  units::Temperature boiling;
  units::Energy to_charge;  ///< into spirit, water and extract
  units::Energy to_wall;    ///< into the boiler's metal
  units::Energy drawn;      ///< at the meter: with losses and efficiency
  units::Duration duration;
  units::Volume volume_at_boil;
};

/// Heat and time to bring a charge to the boil.
///
/// charge     any with liquid in it, colder than its boiling point
/// throws     InputError("boiler.power") when it never gets there: the losses just under the
///            boil take all that arrives; InputError("charge.temperature") when not below it
/// accuracy   heat to 3 %, on the high side (heat of mixing of dilute wash,
///            vapour/activity.hpp). Time against the run's own steps in time: 2e-9 of it at
///            worst (tests/still/heat_up_test.cpp)
/// source     enthalpies of vapour/enthalpy.hpp; Newton's law of cooling
[[nodiscard]] HeatUp heat_up(const Charge& charge, const Boiler& boiler,
                             units::Temperature ambient, const vapour::BoilingCurve& curve);

}  // namespace lynearm::still
