// Strengths as people state them, and as they are shown to them.
#pragma once

#include <string>

#include "spirit/lot.hpp"
#include "spirit/stated.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

namespace lynearm::cli {

/// "55.0 %vol", with its proof where US units are shown.
[[nodiscard]] std::string shown(units::VolumeStrength strength, units::System system);
/// "4.00 L at 70.0 %vol".
[[nodiscard]] std::string shown(const spirit::Lot& lot, units::System system);

/// Volumes the commands take: from a spoonful to a small warehouse.
inline constexpr units::Volume least_volume = units::Volume::millilitres(1.0);
inline constexpr units::Volume most_volume = units::Volume::litres(1e5);

}  // namespace lynearm::cli
