// The normal distribution, in so far as bands are told by it.
#pragma once

namespace lynearm::numeric {

/// Half the width of its 80 % band, in standard deviations: std::erf(half_of_80 / sqrt 2) is
/// 0.8.
inline constexpr double half_of_80 = 1.2815515655446004;

}  // namespace lynearm::numeric
