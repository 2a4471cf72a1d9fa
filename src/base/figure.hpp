// A figure of a table that travels with its range and where it comes from, so that a plan can
// show "why?" and draw from the range.
#pragma once

#include "base/source.hpp"

namespace lynearm::base {

template <class Quantity>
struct Figure {
  Quantity value;
  Quantity low;   ///< of the usual range; at most `value`
  Quantity high;  ///< of the usual range; at least `value`
  Source source;
};

}  // namespace lynearm::base
