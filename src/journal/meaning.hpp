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

/// The same where `residue` is dissolved in it, which the alcoholmeter takes for weakness: its
/// ethanol and water, without what is dissolved. In place of a volume, a mass with all in it.
/// throws     InputError as above and as spirit/obscuration.hpp does
[[nodiscard]] spirit::Lot lot_of(const VolumeRead& volume, const StrengthRead& strength,
                                 units::MassConcentration residue);
[[nodiscard]] spirit::Lot lot_of(units::Mass mass, const StrengthRead& strength,
                                 units::MassConcentration residue);

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

/// A volume of water or of what is nearly water (a wash, a charge that nobody gauged) at 20 °C:
/// water's expansion, 0 to 100 °C, held at these ends. A wash of 10 %vol swells 0.1 % more to
/// 40 °C (our estimate).
[[nodiscard]] units::Volume watery_volume(const VolumeRead& volume);

/// A lot made up with water until it fills a volume at its temperature; as it is when it fills
/// that already. Volumes do not add: the water is found by the density of the whole.
/// throws     InputError ("temperature") outside -20 to 40 °C
[[nodiscard]] spirit::Lot made_up_to(const spirit::Lot& lot, const VolumeRead& to);

/// Extract in so much wort at 20 °C.
[[nodiscard]] units::Mass extract_in(units::Volume volume, units::SpecificGravity gravity);

/// Strength of a wash by the gravity of its wort and its own: so much of the sugar fermented,
/// by the stoichiometry and the yield of ferment/yield.hpp, that the wash shows `now`. The plan
/// reckons so too, so that planned and measured differ by what was measured.
///
/// original   1 to that of 40 °P
/// now        at or above `original`: zero. Below what all of the extract leaves: that much
/// accuracy   the yield's: 0.90 of theory, 0.88 to 0.93, is -2 to +3 %. Balling's
///            factors for beer say 5 to 7 % less, because they count glycerol and acids as
///            extract that did not ferment and more of the sugar as yeast
///            (tests/journal/meaning_test.cpp)
[[nodiscard]] units::VolumeStrength wash_strength(units::SpecificGravity original,
                                                  units::SpecificGravity now);

}  // namespace lynearm::journal
