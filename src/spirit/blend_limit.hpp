// What lots can make at a strength: the most there is, or why there is none.
//
// Strong lots have ethanol beyond the wanted strength, weak ones lack it. Weak lots are filled
// up from the strongest down, which makes the most of what the strong ones have beyond; without
// water, strong lots that have more than the weak can take are used from the weakest up. Both
// are the exact greatest volume (a linear programme with one row). Masses add exactly.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "spirit/reduction.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

inline constexpr std::size_t most_lots = 64;

/// The most that lots make.
struct BlendLimit {
  std::vector<units::Share> used;  ///< of each lot, in the order given
  units::Mass water;               ///< to add
  Blend blend;
};

/// The greatest volume of strength `to` that can be mixed from `lots`.
///
/// lots       1 to 64, not all empty
/// to         above 0 to 100 %vol
/// water      whether water may be added, as much as it takes
/// throws     InputError ("lot") outside; ("to") when no amount of it can be made, with the
///            strength that can: all lots too weak, or all too strong and no water
/// accuracy   strength met to 1e-12
[[nodiscard]] BlendLimit most_at(const std::vector<Lot>& lots, units::VolumeStrength to,
                                 bool water);

/// Which lots it takes: "lots 1 and 3, and part of lot 2"; lots are counted from 1.
[[nodiscard]] std::string words(const std::vector<units::Share>& used);

}  // namespace lynearm::spirit
