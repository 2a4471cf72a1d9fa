// What goes across all stages of a plan, as JSON: ledger, uses, timeline, findings.
#include "spirit/account.hpp"
#include "wire/plan_parts.hpp"

namespace lynearm::wire {
namespace {

const char* word(plan::Flow flow) {
  switch (flow) {
    case plan::Flow::in:
      return "in";
    case plan::Flow::lost:
      return "lost";
    case plan::Flow::kept:
      return "kept";
    case plan::Flow::out:
      return "out";
  }
  return "";
}

const char* word(plan::Attention attention) {
  switch (attention) {
    case plan::Attention::hands_on:
      return "hands_on";
    case plan::Attention::watch:
      return "watch";
    case plan::Attention::wait:
      return "wait";
  }
  return "";
}

// One word for scripts; plan::words() has the words for people.
const char* word(plan::Weight weight) {
  switch (weight) {
    case plan::Weight::stop:
      return "stop";
    case plan::Weight::danger:
      return "danger";
    case plan::Weight::caution:
      return "caution";
    case plan::Weight::remark:
      return "remark";
  }
  return "";
}

// Pure alcohol is a volume at 20 °C; a proof gallon is one at 60 °F.
Json proof_gallons(units::Volume pure_alcohol) {
  return figure(
      spirit::proof_gallons(spirit::PureAlcohol::litres(pure_alcohol.litres())).gallons());
}

}  // namespace

Json ledger_part(const plan::Ledger& ledger) {
  Json entries = Json::array();
  for (const plan::LedgerEntry& entry : ledger.entries) {
    Json one;
    one["stage"] = entry.stage;
    one["name"] = entry.name;
    one["flow"] = word(entry.flow);
    one["pure_alcohol_L"] = figure(entry.pure_alcohol.litres());
    one["proof_gallons"] = proof_gallons(entry.pure_alcohol);
    entries.push_back(std::move(one));
  }
  Json stages = Json::array();
  for (const plan::StageYield& stage : ledger.stages) {
    Json one;
    one["stage"] = stage.stage;
    one["in_pure_alcohol_L"] = figure(stage.in.litres());
    one["out_pure_alcohol_L"] = figure(stage.out.litres());
    one["in_proof_gallons"] = proof_gallons(stage.in);
    one["out_proof_gallons"] = proof_gallons(stage.out);
    // Of nothing there is no yield.
    if (stage.in > units::Volume{}) one["yield_fraction"] = figure(stage.out / stage.in);
    stages.push_back(std::move(one));
  }
  Json totals;
  totals["in_pure_alcohol_L"] = figure(ledger.total(plan::Flow::in).litres());
  totals["lost_pure_alcohol_L"] = figure(ledger.total(plan::Flow::lost).litres());
  totals["kept_pure_alcohol_L"] = figure(ledger.total(plan::Flow::kept).litres());
  totals["out_pure_alcohol_L"] = figure(ledger.total(plan::Flow::out).litres());
  totals["unaccounted_pure_alcohol_L"] = figure(ledger.unaccounted().litres());
  Json object;
  object["entries"] = std::move(entries);
  object["totals"] = std::move(totals);
  object["stages"] = std::move(stages);
  return object;
}

Json uses_part(const plan::Recipe& recipe, const plan::Uses& uses) {
  Json energy;
  energy["mash_kWh"] = figure(uses.mash.kilowatt_hours());
  energy["strip_kWh"] = figure(uses.strip.kilowatt_hours());
  energy["spirit_run_kWh"] = figure(uses.spirit_run.kilowatt_hours());
  energy["all_kWh"] = figure(uses.energy().kilowatt_hours());
  Json object;
  object["energy"] = std::move(energy);
  object["process_water_L"] = figure(uses.process_water.litres());
  object["coolant_L"] = figure(uses.coolant.litres());
  if (uses.costs.empty()) return object;
  Json lines = Json::array();
  for (const plan::CostLine& line : uses.costs) {
    Json one;
    one["what"] = line.what;
    one["amount"] = figure(line.amount);
    lines.push_back(std::move(one));
  }
  Json costs;
  costs["currency"] = recipe.prices.currency;
  costs["lines"] = std::move(lines);
  costs["amount"] = figure(uses.cost);
  if (uses.cost_per_bottle) costs["amount_per_bottle"] = figure(*uses.cost_per_bottle);
  object["costs"] = std::move(costs);
  return object;
}

Json timeline_part(const plan::Timeline& timeline) {
  Json steps = Json::array();
  for (const plan::Step& step : timeline.steps) {
    Json one;
    one["stage"] = step.stage;
    one["what"] = step.what;
    one["start_min"] = figure(step.start.minutes());
    one["clock"] = plan::clock(step.start);
    one["length_min"] = figure(step.length.minutes());
    one["attention"] = word(step.attention);
    one["beside"] = step.beside;
    steps.push_back(std::move(one));
  }
  Json object;
  object["hands_on_min"] = figure(timeline.hands_on().minutes());
  object["watching_min"] = figure(timeline.watching().minutes());
  object["whole_min"] = figure(timeline.whole().minutes());
  object["steps"] = std::move(steps);
  return object;
}

Json findings_part(const std::vector<plan::Finding>& findings) {
  Json list = Json::array();
  for (const plan::Finding& finding : findings) {
    Json one;
    one["weight"] = word(finding.weight);
    one["code"] = finding.code;
    one["stage"] = finding.stage;
    one["says"] = finding.says;
    one["remedy"] = finding.remedy;
    list.push_back(std::move(one));
  }
  return list;
}

}  // namespace lynearm::wire
