// The mash bill in text: what is weighed out, and what it brings.
#include <fmt/format.h>

#include "cli/plan_text_parts.hpp"

namespace lynearm::cli::planned {
namespace {

const char* words(plan::Use use) {
  switch (use) {
    case plan::Use::cook:
      return "cooked first";
    case plan::Use::dough_in:
      return "into the mash, dry";
    case plan::Use::boil:
      return "boiled apart";
    case plan::Use::ferment:
      return "into the fermenter";
  }
  return "";
}

}  // namespace

std::string bill_part(const Batch& batch) {
  const plan::BillPlan& bill = batch.plan.mash.bill;
  std::vector<std::vector<std::string>> rows;
  for (std::size_t i = 0; i < bill.lines.size(); ++i) {
    const mash::LinePotential& brings = bill.potential.lines[i];
    rows.push_back({bill.lines[i].ingredient.name, words(batch.recipe.bill[i].use),
                    batch.print(bill.lines[i].mass), batch.print(brings.of_mass),
                    batch.print(brings.extract), batch.print(brings.of_extract)});
  }
  rows.push_back({"together", "", batch.print(bill.potential.mass), "",
                  batch.print(bill.potential.extract), ""});
  std::string text = heading("Mash bill", batch.look);
  text += grid({{"", Side::left},
                {"goes", Side::left},
                {"mass"},
                {"of mass"},
                {"extract"},
                {"of extract"}},
               rows);
  if (bill.grain.empty()) return text + paragraph("Sugars alone: nothing to convert.");
  return text +
         paragraph(fmt::format(
             "Enzymes: {:.0f} °Lintner. {:.0f} convert, {:.0f} convert with room to spare. "
             "Lots differ: the extract lies between {} and {}.",
             bill.power.has.lintner(), bill.power.need.lintner(), bill.power.comfort.lintner(),
             batch.print(bill.potential.least), batch.print(bill.potential.most)));
}

}  // namespace lynearm::cli::planned
