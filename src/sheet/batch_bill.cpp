// The mash bill on paper: what is weighed out, and what it brings.
#include <fmt/format.h>

#include "sheet/batch_parts.hpp"

namespace lynearm::sheet {
namespace {

const char* words(plan::Use use) {
  switch (use) {
    case plan::Use::cook:
      return "cooked";
    case plan::Use::dough_in:
      return "mashed";
    case plan::Use::boil:
      return "boiled";
    case plan::Use::ferment:
      return "as it is";
  }
  return "";
}

Html bill_table(const Batch& batch) {
  const plan::BillPlan& bill = batch.plan.mash.bill;
  const std::string none(no_figure);
  Table lines{.caption = "",
              .columns = {{"Ingredient", Align::left, 25},
                          {"how", Align::left},
                          {"mass", Align::right},
                          {"of mass", Align::right},
                          {"of extract", Align::right},
                          {"extract", Align::right},
                          {"weighed", Align::left, 12},
                          {"lot", Align::left, 12}},
              .rows = {}};
  for (std::size_t i = 0; i < bill.lines.size(); ++i) {
    const mash::LinePotential& brings = bill.potential.lines[i];
    lines.rows.push_back(
        {bill.lines[i].ingredient.name, words(batch.recipe.bill[i].use),
         cell(bill.lines[i].mass, batch.system), cell(brings.of_mass, batch.system),
         cell(brings.of_extract, batch.system), cell(brings.extract, batch.system), "", ""});
  }
  lines.rows.push_back({"together", none, cell(bill.potential.mass, batch.system), none, none,
                        cell(bill.potential.extract, batch.system), none, none});
  return table(lines);
}

}  // namespace

Html enzymes(const Batch& batch) {
  const plan::BillPlan& bill = batch.plan.mash.bill;
  return small_print(fmt::format(
      "The grain has {:.0f} °Lintner; {:.0f} convert, {:.0f} convert with room to spare. "
      "Between "
      "lots the extract of the bill lies from {} to {}.",
      bill.power.has.lintner(), bill.power.need.lintner(), bill.power.comfort.lintner(),
      cell(bill.potential.least, batch.system), cell(bill.potential.most, batch.system)));
}

Html bill_part(const Batch& batch) { return heading("Mash bill") + bill_table(batch); }

}  // namespace lynearm::sheet
