#include <algorithm>

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

}  // namespace

void sort_findings(std::vector<Finding>& findings) {
  std::stable_sort(findings.begin(), findings.end(),
                   [](const Finding& a, const Finding& b) { return a.weight < b.weight; });
}

Plan make(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
          const vapour::BoilingCurve& curve) {
  std::vector<base::Fault> faults = contradictions(recipe, kit);
  if (!faults.empty()) throw base::InputError(std::move(faults));
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

Plan make(const Recipe& recipe, const Kit& kit) {
  return make(recipe, kit, medians(kit), vapour::BoilingCurve(kit.place.pressure));
}

}  // namespace lynearm::plan
