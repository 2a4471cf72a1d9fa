// A strength as people state it ("55 %vol at 60 F", "110 proof"), as the mixture it means.
#pragma once

#include "units/parse.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// The mixture of a stated strength.
/// throws     InputError ("strength") outside the scale
[[nodiscard]] units::MassFraction mass_fraction(const units::StatedStrength& stated);

/// Its strength by volume at 20 °C; what is stated so comes back to the last bit.
[[nodiscard]] units::VolumeStrength volume_strength(const units::StatedStrength& stated);

/// The figure of a mixture on a scale of strength: inverse of mass_fraction().
[[nodiscard]] units::StatedStrength stated(units::MassFraction ethanol,
                                           units::StrengthScale scale);

}  // namespace lynearm::spirit
