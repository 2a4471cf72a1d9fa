// From a kit, a charge and the recipe's cuts to what is believed of a run before it: the prior
// of still/follow.hpp. One place, so that the command line and the server follow the same
// still.
#pragma once

#include <optional>

#include "plan/kit.hpp"
#include "plan/recipe.hpp"
#include "spirit/lot.hpp"
#include "still/follow_prior.hpp"
#include "still/follow_rules.hpp"

namespace lynearm::plan {

/// What is known of a run before its first reading.
struct RunAhead {
  spirit::Lot charge;
  bool gentle = true;                          ///< a spirit run; else a strip
  std::optional<units::Power> power{};         ///< drawn while it runs; the kit's share of it
  std::optional<units::HeatLoss> head_loss{};  ///< instead of the kit's
};

/// throws     InputError "charge" when it is under half a litre, or under five times what coil
///            and parrot hold: then the spout tells nothing of the pot
[[nodiscard]] still::StillPrior still_prior(const Kit& kit, const RunAhead& run);

/// What the maker waits for on a run, by the recipe: where hearts begin and end, and the stop.
/// Where the recipe leaves the end of the heads open: 2.5 % of the charge (common practice, no
/// source).
[[nodiscard]] still::CutRules cut_rules(const Recipe& recipe, const RunAhead& run);

}  // namespace lynearm::plan
