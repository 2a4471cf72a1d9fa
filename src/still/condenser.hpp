// Vapour into spirit: the heat to remove, the coolant that takes it, and whether there is
// enough. Model: a counter-current coil that brings the leaving coolant to within an approach
// of the vapour, and the spirit to within another of the entering coolant. Leaves out the
// coil's area: a short coil does worse than said here.
#pragma once

#include "still/kit.hpp"
#include "units/quantity.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::still {

/// Heat capacity of a coolant of water from 10 to 80 °C, within 0.5 % (from memory); a litre is
/// taken as a kilogram.
inline constexpr double coolant_J_per_L_K = 4180.0;

/// Spirit as it runs: volume at 20 °C an hour, and strength.
struct SpiritFlow {
  units::VolumeFlow at_20C;
  units::VolumeStrength strength;
};

/// Heat taken from a vapour on its way to spirit at `spout`, water or coolant warmed with it.
///
/// spout      0 to 60 °C, wanted temperature of the running spirit
/// throws     InputError("spout_temperature") outside; InputError("flow") below zero
/// accuracy   that of the latent heats, 0.4 to 1.0 % high (vapour/pure.hpp)
/// source     enthalpy of the vapour at its dew point less that of the liquid
///            (vapour/enthalpy.hpp)
[[nodiscard]] units::Power heat_to_remove(const SpiritFlow& flow, units::Temperature spout,
                                          const vapour::BoilingCurve& curve);

/// Coolant that carries `heat` while it warms from `inlet` to `leaving`; water, 4.18 kJ/(kg K).
/// throws     InputError("coolant.leaving") unless leaving is above inlet
[[nodiscard]] units::VolumeFlow coolant_flow(units::Power heat, units::Temperature inlet,
                                             units::Temperature leaving);

/// How warm a coolant flow leaves. flow above zero, else InputError("coolant.flow").
[[nodiscard]] units::Temperature coolant_leaving(units::Power heat, units::Temperature inlet,
                                                 units::VolumeFlow flow);

struct Cooling {
  units::Power heat;
  units::Temperature vapour;           ///< dew point of what enters the coil
  units::Temperature warmest_leaving;  ///< of the coolant: vapour less the warm-end approach
  units::VolumeFlow least_flow;        ///< coolant at warmest_leaving
  bool flow_enough = true;             ///< least_flow within the condenser's greatest
  units::Temperature coldest_spout;    ///< inlet plus the cold-end approach
  bool spout_reachable = true;         ///< the wanted temperature is not below coldest_spout
  /// Of the coolant at the greatest flow; meaningful when flow_enough.
  units::Temperature leaving_at_greatest_flow;
  /// Spirit that the greatest flow can condense, at 20 °C: run no faster.
  units::VolumeFlow greatest_spirit;
};

/// What a condenser must and can do for a flow of spirit. Findings, not refusals: too little
/// coolant is for the caller to warn of (heat off before coolant off).
///
/// throws     InputError("condenser.greatest_flow") unless above zero,
///            ("condenser.coolant_inlet") when it is not colder than the leaving coolant may be
[[nodiscard]] Cooling cooling(const SpiritFlow& flow, units::Temperature spout,
                              const Condenser& condenser, const vapour::BoilingCurve& curve);

}  // namespace lynearm::still
