// The bill: ingredients looked up, the lots' own analyses put over them.
#include <fmt/format.h>

#include "base/error.hpp"
#include "mash/ingredient.hpp"
#include "plan/mash_stage.hpp"

namespace lynearm::plan {
namespace {

// Where in its range the lots of this member lie: -1 low end, 0 the value, 1 the high end.
units::Share placed(const base::Figure<units::Share>& figure, double place) {
  return place < 0.0 ? figure.value + (figure.value - figure.low) * place
                     : figure.value + (figure.high - figure.value) * place;
}

mash::Ingredient with_analysis(mash::Ingredient ingredient, const LotAnalysis& lot,
                               double place) {
  constexpr base::Source own = {"the lot's own analysis, in the recipe",
                                base::Standing::published};
  const auto put = [&own](auto& figure, const auto& value) {
    if (value) figure = {*value, *value, *value, own};
  };
  // A lot that was analysed is known; one that was not lies somewhere in the usual range.
  ingredient.extract.value = placed(ingredient.extract, place);
  put(ingredient.extract, lot.extract);
  put(ingredient.moisture, lot.moisture);
  put(ingredient.diastatic_power, lot.diastatic_power);
  put(ingredient.fermentable, lot.fermentable);
  return ingredient;
}

mash::Role role_of(Use use) {
  switch (use) {
    case Use::cook:
      return mash::Role::cooked;
    case Use::dough_in:
      return mash::Role::dough_in;
    case Use::boil:
    case Use::ferment:
      return mash::Role::as_sugar;
  }
  return mash::Role::dough_in;
}

}  // namespace

BillPlan plan_bill(const Recipe& recipe, const Drawn& drawn) {
  BillPlan bill;
  for (const BillLine& line : recipe.bill) {
    mash::GristLine grist{
        with_analysis(mash::ingredient(line.ingredient), line.analysis, drawn.extract_place),
        line.mass, role_of(line.use)};
    if (grist.role != mash::Role::as_sugar) bill.grain.push_back(grist);
    bill.lines.push_back(std::move(grist));
  }
  bill.potential = mash::extract_potential(bill.lines);
  if (!bill.grain.empty()) {
    bill.power = mash::enzyme_power(bill.grain);
    bill.verdict = mash::verdict(bill.grain, recipe.mash.rest_temperature);
  }
  return bill;
}

}  // namespace lynearm::plan
