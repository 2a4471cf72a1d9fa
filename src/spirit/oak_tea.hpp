// Reduction where something is dissolved: a wooded spirit with water, or any spirit with tea of
// oak (wood steeped in water or in weak spirit) in place of some or all of the water. The
// target is the true strength; the alcoholmeter will show less, and that is told too.
//
// Masses add exactly; volumes and strengths are those of obscuration.hpp. Leaves out what may
// fall out of solution when a strong spirit meets a watery tea.
#pragma once

#include "spirit/obscuration.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

struct ObscuredReduction {
  ObscuredLot tea;    ///< to add; empty where there is none
  units::Mass water;  ///< to add besides
  ObscuredLot result;
  units::Volume volume_at_20C;
  units::Volume contraction;                ///< spirit, tea and water less result, at 20 °C
  units::VolumeStrength true_strength;      ///< the strength aimed at
  units::VolumeStrength apparent_strength;  ///< what the alcoholmeter will show at 20 °C
  units::MassConcentration residue;         ///< solids in a litre of it
};

/// Water that brings `spirit` to a true strength.
///
/// to         above 0, at or under the spirit's own true strength
/// throws     InputError ("to"), and those of obscuration.hpp; ("spirit") when so much is
///            dissolved that the result is denser than water
/// accuracy   closed form; masses conserved to rounding; without solids, reduce() exactly
[[nodiscard]] ObscuredReduction reduce(const ObscuredLot& spirit, units::VolumeStrength to,
                                       double solids_mL_per_g = sucrose_mL_per_g);

/// All of `tea` into `spirit`, and water for the rest.
///
/// tea        any amount that does not bring the spirit under `to` by itself
/// throws     InputError as above, or ("tea"): the message tells how much of it at most
[[nodiscard]] ObscuredReduction reduce_with_tea(const ObscuredLot& spirit,
                                                const ObscuredLot& tea,
                                                units::VolumeStrength to,
                                                double solids_mL_per_g = sucrose_mL_per_g);

/// Tea only: how much it takes.
///
/// tea        any amount: only what it is made of counts. Thin it with water first for tea as a
///            share of the diluent
/// throws     InputError as above, or ("tea") when it is empty or its true strength is not
///            under `to`
/// accuracy   the true strength is met to 1e-12
[[nodiscard]] ObscuredReduction reduce_with_tea_only(const ObscuredLot& spirit,
                                                     const ObscuredLot& tea,
                                                     units::VolumeStrength to,
                                                     double solids_mL_per_g = sucrose_mL_per_g);

}  // namespace lynearm::spirit
