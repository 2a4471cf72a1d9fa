// An amount of pure alcohol as it was measured: a value and how far it may be off.
#pragma once

#include "units/quantity.hpp"

namespace lynearm::journal {

/// Pure alcohol at 20 °C and its standard uncertainty.
struct PureVolume {
  units::Volume value, sd;
};
/// Errors taken as independent of each other.
[[nodiscard]] PureVolume operator+(PureVolume a, PureVolume b);
[[nodiscard]] PureVolume operator-(PureVolume a, PureVolume b);

}  // namespace lynearm::journal
