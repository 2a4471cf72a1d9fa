// From the wash to the hearts: stripping runs that fit the boiler, one spirit charge made up of
// their low wines and earlier feints, and its cuts. Identical runs are computed once.
#pragma once

#include <optional>
#include <vector>

#include "plan/drawn.hpp"
#include "plan/ferment_stage.hpp"
#include "plan/finding.hpp"
#include "plan/kit.hpp"
#include "plan/recipe.hpp"
#include "still/condenser.hpp"
#include "still/cuts.hpp"
#include "still/heat_up.hpp"
#include "still/run.hpp"
#include "vapour/boiling_curve.hpp"
#include "wort/wash.hpp"

namespace lynearm::plan {

/// Coolant over a run: for the hardest moment, the first.
struct CoolantPlan {
  still::Cooling cooling;
  units::VolumeFlow flow;  ///< to set: the least and a margin, if there is so much
  units::Temperature leaving;
  units::VolumeFlow spirit_flow;  ///< at 20 °C, at the start
  units::Volume water;            ///< through the coil over one run
};

/// One run of the still, from cold pot to the end.
struct RunPlan {
  still::Charge charge;
  units::Mass solids;           ///< dry, in the pot; on the grain only
  units::Volume charge_volume;  ///< at 20 °C
  units::Volume volume_at_boil;
  units::VolumeStrength charge_strength;
  still::HeatUp heat_up;
  still::Run run;
  units::Power power;  ///< while it runs
  CoolantPlan coolant;
  spirit::Lot collected;      ///< distillate less what clings and escapes
  spirit::Lot lost;           ///< that
  units::Volume left_in_pot;  ///< hot, at the end
  units::Duration length;     ///< heating and running
  units::Energy energy;       ///< drawn
};

struct StripPlan {
  int runs = 0;              ///< identical
  units::Volume fill_limit;  ///< of the boiler for this wash
  bool foams = false;
  RunPlan one;
  wort::Wash left_over;  ///< wash beyond the last charge
  units::Volume left_over_volume;
  spirit::Lot low_wines;  ///< of all runs
  units::Volume low_wines_volume;
  units::VolumeStrength low_wines_strength;
  spirit::Lot left_in_pots;  ///< of all runs
  spirit::Lot lost;          ///< of all runs
};

struct SpiritPlan {
  int runs = 0;  ///< identical
  units::Volume fill_limit;
  spirit::Lot feints_in;     ///< into all charges
  units::Mass water;         ///< into all charges
  spirit::Lot low_wines_in;  ///< into all charges
  spirit::Lot low_wines_kept;
  double of_a_charge = 0.0;  ///< all there is, over one full charge
  RunPlan one;
  still::Fraction foreshots, heads, hearts, tails;  ///< of one run
  spirit::Lot hearts_all;  ///< of all runs, less what clings and escapes
  spirit::Lot foreshots_away;
  spirit::Lot heads_away;   ///< unless they are kept
  spirit::Lot feints_kept;  ///< heads when kept, and tails
  spirit::Lot left_in_pots;
  spirit::Lot lost;
};

struct StillStage {
  StripPlan strip;
  SpiritPlan spirit;
};

/// curve      at the kit's pressure
/// throws     InputError when the wash or the charge cannot be distilled as asked
[[nodiscard]] StillStage plan_still(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                                    const FermentPlan& ferment, bool foams,
                                    const vapour::BoilingCurve& curve,
                                    std::vector<Finding>& findings);

}  // namespace lynearm::plan
