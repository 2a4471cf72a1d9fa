// What a plan says to the rules of the legal classes, as JSON.
#include "plan/class_findings.hpp"
#include "wire/plan_parts.hpp"

namespace lynearm::wire {
namespace {

const char* word(plan::Ruling ruling) {
  switch (ruling) {
    case plan::Ruling::kept:
      return "kept";
    case plan::Ruling::breaks:
      return "breaks";
    case plan::Ruling::cannot_tell:
      return "cannot_tell";
    case plan::Ruling::condition:
      return "condition";
  }
  return "";
}

Json rule_json(const plan::RuleFinding& rule) {
  Json object;
  object["id"] = rule.id;
  object["ruling"] = word(rule.ruling);
  object["demands"] = rule.demands;
  if (!rule.says.empty()) object["says"] = rule.says;
  if (!rule.at.empty()) object["at"] = rule.at;
  return object;
}

}  // namespace

Json legal_classes_part(const plan::Recipe& recipe, const plan::Kit& kit,
                        const plan::Plan& plan) {
  Json classes = Json::array();
  for (const plan::ClassFinding& found : plan::class_findings(recipe, kit, plan)) {
    Json one;
    one["id"] = found.of->id;
    one["name"] = found.of->name;
    one["jurisdiction"] = found.of->jurisdiction;
    one["document"] = found.of->cited.source.document;
    one["place"] = found.of->cited.place;
    one["standing"] = base::words(found.of->cited.source.standing);
    one["ruling"] = found.ruling == plan::Ruling::kept ? "could_carry" : word(found.ruling);
    Json rules = Json::array();
    for (const plan::RuleFinding& rule : found.rules) rules.push_back(rule_json(rule));
    one["rules"] = std::move(rules);
    classes.push_back(std::move(one));
  }
  Json object;
  object["classes"] = std::move(classes);
  object["permission"] = plan::no_permission;
  return object;
}

}  // namespace lynearm::wire
