// The mash bill of a plan as JSON: each line with what it brings and where its extract figure
// comes from, the sum, and whether its enzymes suffice.
#include "base/error.hpp"
#include "wire/plan_parts.hpp"

namespace lynearm::wire {
namespace {

const char* word(plan::Use use) {
  switch (use) {
    case plan::Use::cook:
      return "cook";
    case plan::Use::dough_in:
      return "dough_in";
    case plan::Use::boil:
      return "boil";
    case plan::Use::ferment:
      return "ferment";
  }
  return "";
}

const char* word(mash::Converts converts) {
  switch (converts) {
    case mash::Converts::yes:
      return "yes";
    case mash::Converts::weakly:
      return "weakly";
    case mash::Converts::no:
      return "no";
  }
  return "";
}

const char* word(mash::Want want) {
  switch (want) {
    case mash::Want::enzymes:
      return "enzymes";
    case mash::Want::more_enzymes:
      return "more_enzymes";
    case mash::Want::cooking:
      return "cooking";
    case mash::Want::warmer_rest:
      return "warmer_rest";
    case mash::Want::uncooked_malt:
      return "uncooked_malt";
  }
  return "";
}

Json line_json(const plan::BillLine& asked, const mash::GristLine& line,
               const mash::LinePotential& potential) {
  const mash::Ingredient& ingredient = line.ingredient;
  Json object;
  object["ingredient"] = ingredient.id;
  object["name"] = ingredient.name;
  object["use"] = word(asked.use);
  object["mass_kg"] = figure(line.mass.kilograms());
  object["mass_share_fraction"] = figure(potential.of_mass.fraction());
  object["dry_kg"] = figure(potential.dry.kilograms());
  object["moisture_kg"] = figure(potential.moisture.kilograms());
  object["insoluble_kg"] = figure(potential.insoluble.kilograms());
  object["starch_kg"] = figure(potential.starch.kilograms());
  object["extract_kg"] = figure(potential.extract.kilograms());
  object["extract_share_fraction"] = figure(potential.of_extract.fraction());
  Json why;
  why["value_fraction"] = figure(ingredient.extract.value.fraction());
  why["low_fraction"] = figure(ingredient.extract.low.fraction());
  why["high_fraction"] = figure(ingredient.extract.high.fraction());
  why["basis"] = ingredient.basis == mash::ExtractBasis::as_is ? "as_is" : "dry_fine_grind";
  why["source"] = ingredient.extract.source.document;
  why["standing"] = base::words(ingredient.extract.source.standing);
  object["extract_figure"] = std::move(why);
  object["diastatic_power_lintner"] = figure(ingredient.diastatic_power.value.lintner());
  if (ingredient.gelatinisation) {
    object["gelatinises_at_C"] = figure(ingredient.gelatinisation->value.celsius());
  }
  return object;
}

Json enzymes_json(const plan::BillPlan& bill) {
  Json object;
  object["has_lintner"] = figure(bill.power.has.lintner());
  object["need_lintner"] = figure(bill.power.need.lintner());
  object["comfort_lintner"] = figure(bill.power.comfort.lintner());
  object["converts"] = word(bill.verdict.converts);
  Json wants = Json::array();
  for (const mash::Finding& finding : bill.verdict.findings) {
    Json one;
    one["want"] = word(finding.want);
    one["so_converts"] = word(finding.so);
    if (!finding.ingredient.empty()) one["ingredient"] = finding.ingredient;
    one["says"] = finding.sentence;
    wants.push_back(std::move(one));
  }
  object["wants"] = std::move(wants);
  return object;
}

}  // namespace

Json mash_bill_part(const plan::Recipe& recipe, const plan::BillPlan& bill) {
  base::ensure(recipe.bill.size() == bill.lines.size() &&
                   bill.lines.size() == bill.potential.lines.size(),
               "a plan's bill has the recipe's lines");
  Json lines = Json::array();
  for (std::size_t i = 0; i < bill.lines.size(); ++i) {
    lines.push_back(line_json(recipe.bill[i], bill.lines[i], bill.potential.lines[i]));
  }
  const mash::Potential& potential = bill.potential;
  Json object;
  object["lines"] = std::move(lines);
  object["mass_kg"] = figure(potential.mass.kilograms());
  object["grain_kg"] = figure(potential.grain.kilograms());
  object["dry_kg"] = figure(potential.dry.kilograms());
  object["moisture_kg"] = figure(potential.moisture.kilograms());
  object["insoluble_kg"] = figure(potential.insoluble.kilograms());
  object["starch_kg"] = figure(potential.starch.kilograms());
  object["extract_kg"] = figure(potential.extract.kilograms());
  object["least_extract_kg"] = figure(potential.least.kilograms());
  object["most_extract_kg"] = figure(potential.most.kilograms());
  object["fermentable_fraction"] = figure(potential.fermentable.fraction());
  if (!bill.grain.empty()) object["enzymes"] = enzymes_json(bill);
  return object;
}

}  // namespace lynearm::wire
