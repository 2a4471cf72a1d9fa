// A reduction in several steps, equal in strength: water a little at a time, with a rest
// between, as makers do to keep a spirit clear and soft (common practice, no source). The rests
// are the maker's; here is what each step takes. All steps together are one reduction.
#pragma once

#include <vector>

#include "spirit/measured_reduction.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

inline constexpr int most_steps = 100;

struct ReductionStep {
  units::VolumeStrength before;
  units::VolumeStrength after;
  units::Mass water;           ///< to add in this step
  units::Volume water_volume;  ///< the same, at the water's temperature
  Lot result;                  ///< what stands in the vessel after it
  units::Volume volume;        ///< of that, at the result's temperature
};

/// `spirit` brought to `to` in `steps`, each lowering the strength by as many %vol.
///
/// to         above 0, at or under the spirit's own strength
/// steps      1 to 100
/// t          where water and results are measured; the spirit's own plays no part
/// returns    as many steps; their waters add up to that of reduce(), their last result is its
///            result, to rounding
/// throws     InputError ("steps"), and as reduce() and measured() do
[[nodiscard]] std::vector<ReductionStep> reduce_in_steps(const Lot& spirit,
                                                         units::VolumeStrength to, int steps,
                                                         const MixingTemperatures& t = {});

/// The fewest equal steps that lower the strength by at most `most` each.
///
/// most       points of strength: 2.5 %vol is VolumeStrength::percent(2.5); above 0
/// returns    1 to 100; 1 when the strength is already there
/// throws     InputError ("to", "step") when `to` is not above 0 or is above `from`, or when
///            100 steps are too few
[[nodiscard]] int steps_of_at_most(units::VolumeStrength most, units::VolumeStrength from,
                                   units::VolumeStrength to);

}  // namespace lynearm::spirit
