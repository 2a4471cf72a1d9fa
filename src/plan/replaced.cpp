// One ingredient for another: so much of it that the line's extract stays.
#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "mash/ingredient.hpp"
#include "plan/backward.hpp"

namespace lynearm::plan {
namespace {

bool any(const Recipe& recipe, Use use) {
  return std::any_of(recipe.bill.begin(), recipe.bill.end(),
                     [use](const BillLine& line) { return line.use == use; });
}

Use usual_use(const mash::Ingredient& ingredient, const Recipe& recipe) {
  if (!mash::is_grain(ingredient)) return recipe.sugar_boil ? Use::boil : Use::ferment;
  const bool to_cook = ingredient.sort == mash::Sort::raw_grain && ingredient.gelatinisation &&
                       ingredient.gelatinisation->high > recipe.mash.rest_temperature;
  return to_cook && recipe.mash.cook ? Use::cook : Use::dough_in;
}

// A step that nothing is left for goes; its water stays in the batch.
std::string without_idle_steps(Recipe& recipe) {
  std::string says;
  if (recipe.mash.cook && !any(recipe, Use::cook)) {
    recipe.mash.water += recipe.mash.cook->water;
    recipe.mash.cook.reset();
    says += " Nothing is left to cook: its water goes into the mash.";
  }
  if (recipe.sugar_boil && !any(recipe, Use::boil)) {
    if (!recipe.ferment.fill_to) recipe.mash.water += recipe.sugar_boil->water;
    recipe.sugar_boil.reset();
    says += " No sugar is left to boil.";
  }
  return says;
}

}  // namespace

Solved replaced(const Recipe& recipe, const Kit& kit, int line, const std::string& ingredient) {
  if (line < 1 || static_cast<std::size_t>(line) > recipe.bill.size()) {
    throw base::InputError("line", fmt::format("{}", line),
                           fmt::format("a line of the bill, 1 to {}", recipe.bill.size()));
  }
  const std::size_t at = static_cast<std::size_t>(line) - 1;
  const mash::Ingredient& to = mash::ingredient(ingredient);
  const mash::Ingredient& from = mash::ingredient(recipe.bill[at].ingredient);
  if (to.id == from.id) {
    throw base::InputError("ingredient", to.name, "another ingredient than the line has");
  }
  const Drawn drawn = medians(kit);
  const units::Mass extract = plan_bill(recipe, drawn).potential.lines[at].extract;
  Solved solved{recipe, 1.0, ""};
  BillLine& changed = solved.recipe.bill[at];
  const units::Mass before = changed.mass;
  changed.ingredient = to.id;
  changed.analysis = {};
  changed.price_per_kg.reset();
  changed.use = usual_use(to, recipe);
  // Extract goes with mass, so one trial tells how much it takes.
  const units::Mass of_as_much = plan_bill(solved.recipe, drawn).potential.lines[at].extract;
  if (of_as_much <= units::Mass{} || extract <= units::Mass{}) {
    throw base::InputError("ingredient", to.name, "an ingredient that gives extract");
  }
  changed.mass = before * (extract / of_as_much);
  solved.says = fmt::format(
      "{:.2f} kg of {} in place of {:.2f} kg of {}: the same {:.2f} kg of extract.{}",
      changed.mass.kilograms(), to.name, before.kilograms(), from.name, extract.kilograms(),
      without_idle_steps(solved.recipe));
  static_cast<void>(make(solved.recipe, kit));  // says what stands against it
  return solved;
}

}  // namespace lynearm::plan
