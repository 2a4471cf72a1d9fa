// Energy, water and money of a plan.
#include "plan/parts.hpp"
#include "spirit/lot.hpp"

namespace lynearm::plan {
namespace {

units::Volume process_water(const Recipe& recipe, const Plan& plan) {
  units::Volume water = plan.mash.wort.top_up.cold + plan.mash.wort.top_up.hot;
  if (plan.mash.mash) {
    water += recipe.mash.water;
    if (recipe.mash.cook) water += recipe.mash.cook->water;
    for (const Sparge& sparge : recipe.mash.sparges) water += sparge.water;
  }
  if (recipe.sugar_boil) water += recipe.sugar_boil->water;
  const units::Mass proofing =
      plan.spirit.water + plan.finish.reduce.water + plan.finish.bottle.water;
  return water + spirit::volume({{}, proofing});
}

}  // namespace

Uses make_uses(const Recipe& recipe, const Plan& plan) {
  Uses uses;
  if (plan.mash.mash) uses.mash += plan.mash.mash->energy;
  if (plan.mash.sugar) uses.mash += plan.mash.sugar->energy;
  uses.strip = plan.strip.one.energy * static_cast<double>(plan.strip.runs);
  uses.spirit_run = plan.spirit.one.energy * static_cast<double>(plan.spirit.runs);
  uses.process_water = process_water(recipe, plan);
  uses.coolant = plan.strip.one.coolant.water * static_cast<double>(plan.strip.runs) +
                 plan.spirit.one.coolant.water * static_cast<double>(plan.spirit.runs);

  const auto cost = [&uses](std::string what, double amount) {
    uses.costs.push_back({std::move(what), amount});
    uses.cost += amount;
  };
  const auto priced = [&](const std::string& what, std::optional<double> price, double amount) {
    if (price) {
      cost(what, *price * amount);
    } else {
      uses.unpriced.push_back(what);
    }
  };
  for (std::size_t i = 0; i < recipe.bill.size(); ++i) {
    priced(plan.mash.bill.lines[i].ingredient.name, recipe.bill[i].price_per_kg,
           recipe.bill[i].mass.kilograms());
  }
  priced("Yeast", recipe.ferment.yeast_price_per_kg, plan.ferment.yeast.kilograms());
  priced("Energy", recipe.prices.energy_per_kWh, uses.energy().kilowatt_hours());
  priced("Water", recipe.prices.water_per_m3,
         (uses.process_water + uses.coolant).cubic_metres());
  if (plan.finish.wood) priced("Wood", recipe.prices.wood, 1.0);
  priced("Bottles", recipe.prices.bottle_each, plan.finish.bottle.bottles);
  if (!uses.costs.empty() && plan.finish.bottle.bottles > 0) {
    uses.cost_per_bottle = uses.cost / plan.finish.bottle.bottles;
  }
  return uses;
}

}  // namespace lynearm::plan
