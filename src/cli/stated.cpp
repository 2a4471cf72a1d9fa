#include "cli/stated.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "spirit/strength.hpp"

namespace lynearm::cli {

units::MassFraction mass_fraction(const units::StatedStrength& strength) {
  switch (strength.scale) {
    case units::StrengthScale::percent_by_volume:
      return spirit::mass_fraction(units::VolumeStrength::percent(strength.value));
    case units::StrengthScale::percent_by_mass:
      return units::MassFraction::percent(strength.value);
    case units::StrengthScale::us_proof:
      return spirit::mass_fraction(spirit::Proof::degrees(strength.value));
  }
  throw base::BrokenInvariant("a strength is stated on a scale we know");
}

units::VolumeStrength volume_strength(const units::StatedStrength& strength) {
  // Asked for as it stands, so that "70 %vol" is 70 to the last digit.
  if (strength.scale == units::StrengthScale::percent_by_volume) {
    return units::VolumeStrength::percent(strength.value);
  }
  return spirit::volume_strength(mass_fraction(strength));
}

std::string shown(units::VolumeStrength strength, units::System system) {
  return units::print(strength, spirit::proof(spirit::mass_fraction(strength)).degrees(),
                      system);
}

std::string shown(const spirit::Lot& lot, units::System system) {
  return fmt::format("{} at {}", units::print(spirit::volume(lot), system),
                     shown(spirit::strength(lot), system));
}

}  // namespace lynearm::cli
