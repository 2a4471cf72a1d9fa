// Plans that between them have every key a plan's document can have: cooked and not, drained
// and on the grain, of sugars alone, with staves, a cask and no wood, with bands and without.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "numeric/ensemble.hpp"
#include "plan/tern.hpp"
#include "wire/plan_json.hpp"

namespace lynearm::wire {

struct Case {
  std::string name;
  plan::Recipe recipe;
  plan::Kit kit;
  int members = 0;  ///< of the ensemble; zero for none
};

inline plan::BillLine line(const char* ingredient, double mass_kg, plan::Use use) {
  plan::BillLine line;
  line.ingredient = ingredient;
  line.mass = units::Mass::kilograms(mass_kg);
  line.use = use;
  return line;
}

inline std::vector<Case> cases() {
  using namespace units;
  std::vector<Case> all;
  const plan::Recipe tern = plan::tern::recipe_8();
  const plan::Kit kit = plan::tern::kit_8();
  all.push_back({"Tern 8, with bands", tern, kit, 20});

  Case infusion{"malt alone, infused, no wood, nothing priced", tern, kit, 0};
  infusion.recipe.bill = {line("barley-malt-distillers", 16.0, plan::Use::dough_in),
                          line("rye-raw", 2.0, plan::Use::dough_in)};
  infusion.recipe.mash.cook.reset();
  infusion.recipe.mash.water = Volume::litres(45.0);
  infusion.recipe.sugar_boil.reset();
  infusion.recipe.mash.rest_temperature = Temperature::celsius(57.0);
  infusion.recipe.spirit_run.feints.reset();
  infusion.recipe.wood.reset();
  infusion.recipe.prices = {};
  infusion.recipe.ferment.yeast_price_per_kg.reset();
  infusion.kit.vessels[1].heat = Power::kilowatts(3.0);
  infusion.kit.place.ferment_room.reset();
  infusion.kit.still.boiler.heat = plan::BoilerHeat::flame;
  infusion.kit.still.boiler.element_covered_above = {};
  all.push_back(std::move(infusion));

  Case sugars{"sugars alone, in a cask", tern, kit, 0};
  sugars.recipe.remark = "Nothing to mash.";
  sugars.recipe.bill = {line("sugar", 16.0, plan::Use::boil),
                        line("honey", 2.0, plan::Use::ferment)};
  sugars.recipe.mash = {};
  sugars.recipe.wood->in = std::string("little cask");
  all.push_back(std::move(sugars));

  Case grain{"on the grain, landing cold", tern, kit, 0};
  grain.recipe.mash.sparges.clear();
  grain.recipe.mash.on_the_grain = true;
  grain.recipe.mash.cook->water = Volume::litres(26.0);
  grain.recipe.mash.water = Volume::litres(24.0);
  grain.kit.vessels[1].heat = Power::kilowatts(3.0);
  all.push_back(std::move(grain));
  return all;
}

inline plan::Plan plan_of(const Case& one) { return plan::make(one.recipe, one.kit); }

inline std::string document_of(const Case& one) {
  const plan::Plan plan = plan_of(one);
  if (one.members == 0) return plan_json(one.recipe, one.kit, plan);
  const plan::Bands bands =
      plan::bands(one.recipe, one.kit, plan, one.members, 8, numeric::one_after_another());
  return plan_json(one.recipe, one.kit, plan, &bands);
}

}  // namespace lynearm::wire
