#include "wire/charge_left.hpp"

#include "wire/plan_parts.hpp"

namespace lynearm::wire {

std::string charge_left_json(const plan::ChargeLeft& of) {
  Json json;
  if (of.needs > units::Volume{}) json["element_covered_above_L"] = figure(of.needs.litres());
  if (of.left) json["left_in_pot_L"] = figure(of.left->litres());
  if (of.spirit_left) json["left_in_pot"] = gauged(*of.spirit_left);
  json["findings"] = findings_part(of.findings);
  return json.dump();
}

}  // namespace lynearm::wire
