// What a temperature read on mash day asks for. It depends on the step in hand: strike water
// and cooked grain are brought to where the malts go in, the rest is mended with water, sparge
// water is heated, the wort cools; and once the yeast is in, nothing is asked of a mash. The
// contents are those of the plan. Leaves out how far a rest has drifted by the time it is read.
#pragma once

#include <optional>
#include <string>

#include "journal/state.hpp"
#include "station/planned.hpp"
#include "wire/answer.hpp"

namespace lynearm::station {

/// Advice on a temperature.
///
/// batch      its marks, worts and pitch tell the step in hand where `step` does not
/// reading    0 to 105 °C; above 100 °C contents are taken as at 100 °C
/// step       by the plan's words; empty: the last one is done
/// throws     InputError "batch" without a mash; "temperature_C"; "step" that is no step of the
///            mash
/// accuracy   water: exact balance. Times: Newton's law; their 80 % band is that of the kit's
///            heat losses alone
[[nodiscard]] wire::MashAdvice mash_advice(const PlanMade& made,
                                           const journal::BatchState& batch,
                                           units::Temperature reading,
                                           const std::optional<std::string>& step);

}  // namespace lynearm::station
