#include "plan/element_findings.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "units/print.hpp"

namespace lynearm::plan {

bool cover_unknown(const Boiler& boiler) {
  return boiler.heat == BoilerHeat::element && boiler.element_covered_above <= units::Volume{};
}

Finding cover_not_stated(const std::string& fact, const std::string& stage) {
  return {Weight::caution, "element-cover-unknown", stage,
          fmt::format("{}; the kit does not say how much the element needs over it, so nothing "
                      "can warn before it is bare and burns dry.",
                      fact),
          "Pour water into the cold boiler until the element is well covered, and state that "
          "volume in the kit."};
}

Finding charge_bares_element(units::Volume charge, const Boiler& boiler,
                             const std::string& stage) {
  const auto [here, needs] = units::print_apart(charge, boiler.element_covered_above);
  // Stopping earlier cannot mend it. A spirit run may be thinned; a strip gets no water.
  return {Weight::danger, "element-exposed", stage,
          fmt::format("The charge is {}; the element needs {} over it and burns dry as soon as "
                      "the heat is on.",
                      here, needs),
          stage == "Spirit run" ? "Leave the heat off. Charge more, with water if need be."
                                : "Leave the heat off. Charge more."};
}

units::Volume water_in_boiler(const Recipe& recipe, const Kit& kit) {
  units::Volume water;
  bool heated = false;
  for (const Sparge& sparge : recipe.mash.sparges) {
    water += sparge.water;
    heated |= sparge.temperature > kit.liquor.cold;
  }
  return heated && water < kit.still.boiler.total ? water : units::Volume{};
}

void watch_water_in_boiler(const Recipe& recipe, const Kit& kit,
                           std::vector<Finding>& findings) {
  const units::Volume water = water_in_boiler(recipe, kit);
  const Boiler& boiler = kit.still.boiler;
  if (water <= units::Volume{}) return;
  if (cover_unknown(boiler)) {
    findings.push_back(cover_not_stated(
        fmt::format("{:.1f} L of sparge water is heated in the still's boiler", water.litres()),
        "Mash"));
  } else if (water < boiler.element_covered_above) {
    const auto [here, needs] = units::print_apart(water, boiler.element_covered_above);
    findings.push_back(
        {Weight::danger, "element-exposed", "Mash",
         fmt::format("{} of sparge water is heated in the still's boiler; the element needs {} "
                     "over it and burns dry.",
                     here, needs),
         "Heat at least that much, or heat it elsewhere."});
  }
}

}  // namespace lynearm::plan
