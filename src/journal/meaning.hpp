// What a reading in the journal truly means: gravities and strengths at 20 °C, volumes at 20
// °C, lots. One place, so that the fold, the pages and the ledger mean the same.
#pragma once

#include "journal/body.hpp"
#include "spirit/lot.hpp"
#include "wort/gravity.hpp"

namespace lynearm::journal {

/// The true strength that an alcoholmeter's figure means; glass and accuracy as in
/// spirit/hydrometer.hpp.
/// throws     InputError where that throws
[[nodiscard]] units::VolumeStrength true_strength(const StrengthRead& read);

/// The lot of that volume and strength, each at its own temperature.
/// throws     InputError ("at", "reading") outside what spirit/ takes
[[nodiscard]] spirit::Lot lot_of(const VolumeRead& volume, const StrengthRead& strength);

/// The true gravity of a wort before yeast, by hydrometer or refractometer.
/// throws     InputError outside what wort/ takes
[[nodiscard]] units::SpecificGravity wort_gravity(const GravityRead& read);

/// The true gravity of a fermenting wash; a refractometer's figure is corrected for the alcohol
/// that the original gravity implies.
[[nodiscard]] units::SpecificGravity wash_gravity(const GravityRead& read,
                                                  units::SpecificGravity original);

/// A wort's volume at 20 °C from one read warm (0 to 100 °C).
[[nodiscard]] units::Volume wort_volume(const VolumeRead& volume,
                                        units::SpecificGravity gravity);

/// Extract in so much wort at 20 °C.
[[nodiscard]] units::Mass extract_in(units::Volume volume, units::SpecificGravity gravity);

/// What a wash of these gravities holds: strength by Balling's factors, as
/// wort/attenuation.hpp.
[[nodiscard]] units::VolumeStrength wash_strength(units::SpecificGravity original,
                                                  units::SpecificGravity now);

}  // namespace lynearm::journal
