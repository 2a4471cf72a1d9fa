#include <algorithm>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "plan/parts.hpp"
#include "plan/plan.hpp"

namespace lynearm::plan {
namespace {

bool foams(const BillPlan& bill) {
  units::Mass foaming;
  units::Mass all;
  for (const mash::GristLine& line : bill.grain) {
    all += line.mass;
    if (line.ingredient.foams) foaming += line.mass;
  }
  // A little rye in a barley mash does not foam; a third does (common practice, no source).
  return all > units::Mass{} && foaming / all > 1.0 / 3.0;
}

// The rooms name their own arguments; here they get the names of the recipe's and the kit's
// keys.
std::vector<base::Fault> in_the_files_words(std::vector<base::Fault> faults) {
  static constexpr std::pair<const char*, const char*> names[] = {
      {"boiler.power", "kit.boiler.power"},
      {"charge.temperature", "kit.place.ambient"},
      {"condenser.coolant_inlet", "kit.condenser.coolant_inlet"},
      {"condenser.greatest_flow", "kit.condenser.greatest_flow"},
      {"cook.simmer", "mash.cook.time"},
      {"coolant.flow", "kit.condenser.greatest_flow"},
      {"heat.power", "kit.vessel"},
      {"hexose", "ferment.fill_to"},
      {"pour.taking", "mash.cook.water"},
      {"run.heating.power", "kit.head.spirit_power"},
      {"run.stop.collected", "spirit_run.tails_end"},
      {"run.stop.head_temperature", "spirit_run.tails_end"},
      {"spout_temperature", "strip.spout_temperature"},
      {"vessel.room", "kit.place.ambient"},
      {"waters.cold", "kit.liquor.cold"},
      {"waters.hot", "kit.liquor.hot"},
      {"wood.surface", "wood.staves"}};
  for (base::Fault& fault : faults) {
    for (const auto& [inner, outer] : names) {
      if (fault.field == inner) fault.field = outer;
    }
  }
  return faults;
}

}  // namespace

void sort_findings(std::vector<Finding>& findings) {
  std::stable_sort(findings.begin(), findings.end(),
                   [](const Finding& a, const Finding& b) { return a.weight < b.weight; });
}

namespace {

Plan chain(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
           const vapour::BoilingCurve& curve) {
  Plan plan;
  plan.mash = plan_mash(recipe, kit, drawn, plan.findings);
  plan.ferment = plan_ferment(recipe, kit, drawn, plan.mash.wort, plan.findings);
  StillStage still =
      plan_still(recipe, kit, drawn, plan.ferment, foams(plan.mash.bill), curve, plan.findings);
  plan.strip = std::move(still.strip);
  plan.spirit = std::move(still.spirit);
  plan.finish = plan_finish(recipe, kit, drawn, plan.spirit.hearts_all, plan.findings);
  plan.ledger = make_ledger(plan);
  plan.uses = make_uses(recipe, plan);
  plan.timeline = make_timeline(recipe, kit, plan);
  sort_findings(plan.findings);
  return plan;
}

}  // namespace

Plan make(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
          const vapour::BoilingCurve& curve) {
  std::vector<base::Fault> faults = contradictions(recipe, kit);
  if (!faults.empty()) throw base::InputError(std::move(faults));
  try {
    return chain(recipe, kit, drawn, curve);
  } catch (const base::InputError& error) {
    throw base::InputError(in_the_files_words(error.faults()));
  }
}

Plan make(const Recipe& recipe, const Kit& kit) {
  return make(recipe, kit, medians(kit), vapour::BoilingCurve(kit.place.pressure));
}

}  // namespace lynearm::plan
