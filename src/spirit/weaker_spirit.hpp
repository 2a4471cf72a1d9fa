// Reduction with weaker spirit in place of some or all of the water: feints of little strength,
// low wines, the last of an old lot. Exact mass balances.
#pragma once

#include "spirit/reduction.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// A spirit reduced with weaker spirit and water.
struct WeakerReduction {
  Lot weaker;         ///< weaker spirit to add
  units::Mass water;  ///< to add besides
  units::Mass
      water_saved;  ///< against water alone; below zero when `weaker` was too strong to help
  Lot result;
  units::Volume volume_at_20C;
  units::Volume contraction;  ///< spirit, weaker spirit and water less result, all at 20 °C
};

/// `spirit` brought to `to` with all of `weaker`, and water for the rest.
///
/// weaker     any lot, of whatever strength, as long as both together are not under `to`
/// to         above 0, at or under the spirit's own strength
/// throws     InputError ("to"), or ("weaker") when so much of it overshoots: the message tells
///            how much at most
[[nodiscard]] WeakerReduction reduce_with(const Lot& spirit, const Lot& weaker,
                                          units::VolumeStrength to);

/// How the two parts of a diluent are shared out.
enum class ShareBy {
  volume,  ///< of each at 20 °C before mixing, as in a measuring jug
  mass,
};

/// `spirit` brought to `to` with weaker spirit and water in a fixed share.
///
/// weaker     0 to 100 %vol
/// share      of weaker spirit in the diluent, 0 to 1
/// to         above 0, at or under the spirit's own strength
/// throws     InputError ("to"), ("share") outside 0 to 100 % or when the diluent would not be
///            weaker than `to`: the message tells the share under which it is
[[nodiscard]] WeakerReduction reduce_with_share(const Lot& spirit, units::VolumeStrength weaker,
                                                units::Share share, units::VolumeStrength to,
                                                ShareBy by = ShareBy::volume);

/// `spirit` brought to `to` with weaker spirit only: how much it takes.
///
/// weaker     under `to`
/// throws     InputError ("to", "weaker") otherwise
[[nodiscard]] WeakerReduction reduce_with_only(const Lot& spirit, units::VolumeStrength weaker,
                                               units::VolumeStrength to);

}  // namespace lynearm::spirit
