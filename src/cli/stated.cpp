#include "cli/stated.hpp"

#include <fmt/format.h>

#include "spirit/strength.hpp"

namespace lynearm::cli {

std::string shown(units::VolumeStrength strength, units::System system) {
  return units::print(strength, spirit::proof(spirit::mass_fraction(strength)).degrees(),
                      system);
}

std::string shown(const spirit::Lot& lot, units::System system) {
  return fmt::format("{} at {}", units::print(spirit::volume(lot), system),
                     shown(spirit::strength(lot), system));
}

}  // namespace lynearm::cli
