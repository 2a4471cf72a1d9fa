// From the bill to a wort at pitching temperature: cook, landing, cooling, dough-in, rest,
// draining, sparges, sugar boil, cooling, topping up. Each step is a model of mash/; this puts
// them in a row and watches the vessels.
#pragma once

#include <optional>
#include <vector>

#include "mash/bill.hpp"
#include "mash/cook.hpp"
#include "mash/correction.hpp"
#include "mash/course.hpp"
#include "mash/drain.hpp"
#include "mash/heat.hpp"
#include "mash/landing.hpp"
#include "mash/rest.hpp"
#include "mash/sugar_boil.hpp"
#include "mash/top_up.hpp"
#include "plan/drawn.hpp"
#include "plan/finding.hpp"
#include "plan/kit.hpp"
#include "plan/recipe.hpp"

namespace lynearm::plan {

/// The bill with its lots' figures, as mash/ takes it.
struct BillPlan {
  mash::Bill lines;           ///< in the order of the recipe
  mash::Bill grain;           ///< the lines that go through the mash
  mash::Potential potential;  ///< of `lines`
  mash::EnzymePower power;    ///< of `grain`
  mash::Verdict verdict;      ///< of `grain` at the recipe's rest
};

/// A correction for one imagined reading, so that the answer is at hand on the day.
struct CorrectionLine {
  units::Temperature reading;
  mash::Correction correction;
};

/// Cooling the cooked grain, or the wort, to a temperature.
struct CoolingPlan {
  units::Temperature from, to;
  units::Duration lid_on;
  std::optional<units::Duration> lid_off;
  std::optional<units::Duration> with_coil;
  units::Duration planned;     ///< by `by`; negative when it never gets there
  CoolBy by = CoolBy::lid_on;  ///< the way taken: as the recipe says, or the nearest to it
};

struct CookPlan {
  mash::Cooked cooked;
  mash::Landed landed;
  units::Duration moving;                  ///< from pot to mash vessel
  std::optional<CoolingPlan> cooling;      ///< absent when it lands cold enough
  std::optional<units::Duration> heating;  ///< present when it lands too cold
};

struct MashPlan {
  std::optional<CookPlan> cook;
  std::optional<units::Duration> heating_strike;  ///< infusion: water to the strike temperature
  units::Energy energy;                           ///< drawn for cook, strike and sparge waters
  units::Temperature dough_in;                    ///< of the liquor when the grist goes in
  mash::Contents doughed_in;                      ///< settled, at the rest temperature
  units::Volume fullest;                          ///< the mash vessel at its fullest
  std::vector<CorrectionLine> corrections;
  mash::Rested rested;
  units::Mass extract_made;
  units::Share limit_attenuation;             ///< of the grain's extract, in the end
  std::optional<mash::Drained> drained;       ///< absent on the grain
  std::vector<units::Duration> run_off_time;  ///< first runnings, then each sparge
  units::Share slow_draining;
  mash::Course course;
  units::Duration length;  ///< of the course
};

/// Sugars dissolved and boiled apart, all lines in one pot.
struct SugarPlan {
  wort::Wort wort;
  mash::Contents contents;
  units::Volume hot;
  units::Volume boiled_away;
  units::Energy energy;
  units::Duration heating;
};

/// What goes to the fermenter.
struct WortPlan {
  wort::Wort grain;                 ///< from the mash
  wort::Wort sugar;                 ///< boiled apart, and stirred in dry
  wort::Wort whole;                 ///< with the topping-up water
  units::Mass solids;               ///< dry, on the grain only
  units::Volume before_topping_up;  ///< at its temperature then
  units::Temperature collected;     ///< temperature of the whole when it is together
  std::optional<CoolingPlan> cooling;
  mash::TopUp top_up;
  units::Volume volume;  ///< at 20 °C, liquid only
  units::Volume fill;    ///< at pitching temperature, with solids
  units::SpecificGravity original_gravity;
  units::Plato extract;
  units::Share fermentable;          ///< of the extract
  double hexose_per_gram = 1.0;      ///< of the fermentable extract
  units::Mass sugar_hexose;          ///< in the sugars' extract, were all of it sugar
  units::Mass unfermentable_hexose;  ///< of the whole, summed over its sources
  units::Mass extract_from_malt, extract_from_raw_grain, extract_from_sugar;
};

struct MashStage {
  BillPlan bill;
  std::optional<MashPlan> mash;  ///< absent for a bill of sugars alone
  std::optional<SugarPlan> sugar;
  WortPlan wort;
};

/// The bill alone, from the recipe's lines and the table of ingredients.
/// throws     InputError for an unknown ingredient or a line in the wrong place
[[nodiscard]] BillPlan plan_bill(const Recipe& recipe, const Drawn& drawn);

/// throws     InputError when the bill cannot convert, or a step is impossible
[[nodiscard]] MashStage plan_mash(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                                  std::vector<Finding>& findings);

}  // namespace lynearm::plan
