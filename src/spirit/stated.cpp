#include "spirit/stated.hpp"

#include "base/error.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {

units::MassFraction mass_fraction(const units::StatedStrength& stated) {
  switch (stated.scale) {
    case units::StrengthScale::percent_by_volume:
      return mass_fraction(units::VolumeStrength::percent(stated.value));
    case units::StrengthScale::percent_by_volume_15C:
      return mass_fraction(VolumeStrength15C::percent(stated.value));
    case units::StrengthScale::percent_by_volume_60F:
      return mass_fraction(VolumeStrength60F::percent(stated.value));
    case units::StrengthScale::percent_by_mass:
      return units::MassFraction::percent(stated.value);
    case units::StrengthScale::us_proof:
      return mass_fraction(Proof::degrees(stated.value));
  }
  throw base::BrokenInvariant("a strength is stated on a scale we know");
}

units::VolumeStrength volume_strength(const units::StatedStrength& stated) {
  if (stated.scale == units::StrengthScale::percent_by_volume) {
    return units::VolumeStrength::percent(stated.value);
  }
  return volume_strength(mass_fraction(stated));
}

units::StatedStrength stated(units::MassFraction ethanol, units::StrengthScale scale) {
  switch (scale) {
    case units::StrengthScale::percent_by_volume:
      return {volume_strength(ethanol).percent(), scale};
    case units::StrengthScale::percent_by_volume_15C:
      return {volume_strength_15C(ethanol).percent(), scale};
    case units::StrengthScale::percent_by_volume_60F:
      return {volume_strength_60F(ethanol).percent(), scale};
    case units::StrengthScale::percent_by_mass:
      return {ethanol.percent(), scale};
    case units::StrengthScale::us_proof:
      return {proof(ethanol).degrees(), scale};
  }
  throw base::BrokenInvariant("a strength is stated on a scale we know");
}

}  // namespace lynearm::spirit
