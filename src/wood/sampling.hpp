// When to taste, how full to fill, and what the wood drinks. Wood gives most at first, so the
// dates stand close at the start and apart later.
#pragma once

#include <vector>

#include "units/quantity.hpp"
#include "wood/surface.hpp"

namespace lynearm::wood {

/// Days on which to draw a sample, from filling to `whole`: time over whole = (k/count)², so
/// that each finds about equally much more extract than the last.
///
/// whole      a week or more
/// count      2 to 50 samples; fewer are returned where two would fall on one day
[[nodiscard]] std::vector<units::Duration> sampling_days(units::Duration whole, int count = 8);

/// Room left for the spirit to swell: 3 to 5 % of the vessel, common practice, no source.
inline constexpr units::Share usual_ullage = units::Share::fraction(0.04);

/// Spirit to fill into a vessel. ullage: 0.01 to 0.2.
[[nodiscard]] units::Volume fill_volume(units::Volume vessel,
                                        units::Share ullage = usual_ullage);

/// Spirit a new cask drinks into its staves in the first months: 4 to 6 L/m² (from memory).
inline constexpr double soak_L_per_m2 = 5.0;
/// Share of a stave's own volume that it can take up (oak's pores, our estimate).
inline constexpr units::Share stave_pores = units::Share::fraction(0.5);

/// Gone into new wood for good, unless it is wrung out: 8 to 10 L for a 200 L cask.
[[nodiscard]] units::Volume soak_in(units::Area new_wood);
/// The same for staves in glass: no more than their pores hold.
[[nodiscard]] units::Volume soak_in(const Stave& stave, double count);

}  // namespace lynearm::wood
