// The plan: a recipe carried through a kit, from mash bill to bottle. Pure: values in, values
// out. Everything a surface shows of a batch to come is in here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/drawn.hpp"
#include "plan/ferment_stage.hpp"
#include "plan/finding.hpp"
#include "plan/finish_stage.hpp"
#include "plan/kit.hpp"
#include "plan/ledger.hpp"
#include "plan/mash_stage.hpp"
#include "plan/recipe.hpp"
#include "plan/still_stage.hpp"
#include "plan/timeline.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::plan {

/// One line of the bill of costs.
struct CostLine {
  std::string what;
  double amount = 0.0;  ///< in the recipe's currency
};

/// What the batch uses and costs.
struct Uses {
  units::Energy mash;  ///< drawn for cook, strike and sparge waters, sugar
  units::Energy strip;
  units::Energy spirit_run;
  units::Volume process_water;  ///< into mash, wort, charge and spirit
  units::Volume coolant;
  std::vector<CostLine> costs;        ///< where prices are given
  double cost = 0.0;                  ///< their sum
  std::vector<std::string> unpriced;  ///< used, but without a price: the cost leaves it out
  std::optional<double> cost_per_bottle;

  [[nodiscard]] units::Energy energy() const { return mash + strip + spirit_run; }
};

struct Plan {
  MashStage mash;
  FermentPlan ferment;
  StripPlan strip;
  SpiritPlan spirit;
  FinishStage finish;
  Ledger ledger;
  Uses uses;
  Timeline timeline;
  std::vector<Finding> findings;  ///< worst first
};

/// Everything that is wrong between a recipe and a kit before any physics: a vessel or cask
/// the kit lacks, a cook without cooked grain, sugar to boil without a pot. Field paths are
/// those of the recipe and kit files; there is no file or line yet.
[[nodiscard]] std::vector<base::Fault> contradictions(const Recipe& recipe, const Kit& kit);

/// The plan of a batch with these constants.
///
/// recipe, kit   as the readers of recipe/ accept them
/// curve         boiling mixtures at the kit's pressure (made once, shared by an ensemble)
/// throws        InputError with every contradiction; or when the bill cannot convert, the
///               power never boils a pot, or a stop strength is never reached
///               NotConverged when a solver fails
/// accuracy      the ledger closes to rounding (tests/plan/ledger_test.cpp)
[[nodiscard]] Plan make(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                        const vapour::BoilingCurve& curve);

/// As above with every constant at its median.
[[nodiscard]] Plan make(const Recipe& recipe, const Kit& kit);

}  // namespace lynearm::plan
