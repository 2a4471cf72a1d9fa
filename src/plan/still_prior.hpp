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

/// Where a recipe leaves the first borders open, as a share of the charge: common practice, no
/// source.
inline constexpr double usual_foreshots_end = 0.005;
inline constexpr double usual_heads_end = 0.025;

/// What is known of a run before its first reading.
struct RunAhead {
  spirit::Lot charge;
  bool gentle = true;                          ///< a spirit run; else a strip
  std::optional<units::Power> power{};         ///< drawn while it runs; the kit's share of it
  std::optional<units::HeatLoss> head_loss{};  ///< instead of the kit's
  std::optional<units::Power>
      from_the_start{};       ///< drawn from heat on; the boiler's full power
  bool charge_gauged = true;  ///< else its strength is a guess, such as the plan's
};

/// With less power from the start than the run is planned at, that one is kept. The strength of
/// a charge that was not gauged is taken to be off by a tenth (one standard deviation, our
/// estimate).
///
/// throws     InputError "charge" when it is under half a litre, or under five times what coil
///            and parrot hold: then the spout tells nothing of the pot
[[nodiscard]] still::StillPrior still_prior(const Kit& kit, const RunAhead& run);

/// What the maker waits for on a run, by the recipe: where foreshots and heads end, where the
/// hearts do, and the stop. Where the recipe leaves them open, the usual shares.
[[nodiscard]] still::CutRules cut_rules(const Recipe& recipe, const RunAhead& run);

}  // namespace lynearm::plan
