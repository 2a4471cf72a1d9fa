// A wort or wash as JSON: one object, one line, keys that name their unit. Holds no physics:
// figures are those of wort/.
#pragma once

#include <optional>
#include <string>

#include "units/quantity.hpp"

namespace lynearm::wire {

/// How far a wash has fermented.
struct Fermented {
  units::Plato original;
  units::Plato real_extract;
  units::Share alcohol_by_mass;
  units::VolumeStrength alcohol;
};

struct WortReport {
  units::SpecificGravity gravity;  ///< 20/20 °C, as a hydrometer shows it
  std::optional<Fermented> fermented;
};

/// specific_gravity_20C_20C, specific_gravity_60F_60F, extract_plato, brix; then of a wash the
/// original and the real extract, the alcohol and the attenuation.
[[nodiscard]] std::string json(const WortReport& report);

}  // namespace lynearm::wire
