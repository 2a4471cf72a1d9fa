// A reduction as a page asks it: forward from a spirit, or backward from what is to be made;
// with weaker spirit or tea beside the water; and what mends it where it was found otherwise.
// The reckoning is that of spirit/; here its refusals get the names of the request's fields.
#pragma once

#include "wire/answer.hpp"
#include "wire/ask.hpp"

namespace lynearm::station {

/// A finding no further than this from what was wanted needs no mending: no glass of the house
/// tells it apart (our choice).
inline constexpr units::VolumeStrength near_enough = units::VolumeStrength::percent(0.05);

/// throws     InputError at a field of the request, as spirit/ does for what cannot be
[[nodiscard]] wire::ReductionMade reduced(const wire::ReduceAsked& asked);

}  // namespace lynearm::station
