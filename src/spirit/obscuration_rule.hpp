// Obscuration as the rules have it, beside what physics has.
//
// United States, 27 CFR 30.31 and 30.32 (13.31 and 13.32 in an older edition): each 100 mg of
// solids in 100 mL hide 0.4 proof. Up to 400 mg the hydrometer's proof stands; over 400 and up
// to 600 mg the computed obscuration is added; over 600 mg the spirit is distilled.
// European Union, Regulation (EC) No 2870/2000 (from memory): the strength that counts is the
// real one, of the distillate made up to volume (Annex I), whatever the solids; dry extract is
// weighed (Annex II). There is no allowance, so obscuration() below has no place there.
// Local law decides; this only helps to understand it.
#pragma once

#include <string_view>

#include "spirit/obscuration.hpp"
#include "spirit/strength.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// How the United States rule has a spirit gauged.
enum class UsGauging { hydrometer, hydrometer_and_obscuration, distil };

/// The rule's limits: 400 and 600 mg/100 mL.
inline constexpr units::MassConcentration us_hydrometer_alone =
    units::MassConcentration::grams_per_litre(4.0);
inline constexpr units::MassConcentration us_computed =
    units::MassConcentration::grams_per_litre(6.0);

/// The way the rule prescribes at this residue.
///
/// residue    zero or more
/// throws     InputError ("residue") below zero
/// source     27 CFR 30.31, 30.32
[[nodiscard]] UsGauging us_gauging(units::MassConcentration residue);

/// "read the hydrometer", and so on: what the maker does.
[[nodiscard]] std::string_view words(UsGauging gauging);

/// Proof hidden by the rule: 0.4 for 100 mg/100 mL, in proportion.
///
/// residue    0 to 6 g/L; above it the rule has none
/// throws     InputError ("residue") outside
/// accuracy   against physics (obscuration.hpp at 60 °F, solids at 0.62 mL/g; in brackets 0.70
/// and
///            0.60) 100 mg/100 mL hide 0.65 (0.52 to 0.69) at 60 proof, 0.48 (0.38 to 0.51) at
///            80, 0.38 (0.29 to 0.40) at 100, 0.32 (0.24 to 0.34) at 120. The rule is the
///            physics of 94 proof (76 and 99), and within 0.08 of it from 80 to 100 proof, for
///            which the rule allows this way (from memory); weaker spirit hides more, stronger
///            less (tests/published/cfr_27_obscuration_test.cpp)
/// source     27 CFR 30.32
[[nodiscard]] Proof obscuration(units::MassConcentration residue);

/// Proof at 60 °F of an obscured lot: true, by its ethanol, and apparent, by its density.
/// throws     InputError ("spirit") for an empty lot, or one denser than water
[[nodiscard]] Proof true_proof(const ObscuredLot& lot,
                               double solids_mL_per_g = sucrose_mL_per_g);
[[nodiscard]] Proof apparent_proof(const ObscuredLot& lot,
                                   double solids_mL_per_g = sucrose_mL_per_g);

}  // namespace lynearm::spirit
