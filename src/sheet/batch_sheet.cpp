#include "sheet/batch_sheet.hpp"

#include <fmt/format.h>

#include "sheet/batch_parts.hpp"

namespace lynearm::sheet {

std::string batch_sheet(const plan::Recipe& recipe, const plan::Kit& kit,
                        const plan::Plan& plan, const plan::Bands* bands, units::System system,
                        Paper paper) {
  const Batch batch{recipe, kit, plan, bands, system};
  Html body = batch_at_a_glance(batch) + bill_part(batch);
  body += mash_part(batch) + wort_part(batch) + ferment_part(batch);
  body += strip_part(batch) + spirit_part(batch) + jars_part(batch);
  body += reduce_part(batch) + wood_part(batch) + bottle_part(batch);
  body += classes_part(batch);
  body += ledger_part(batch) + uses_part(batch) + days_part(batch);
  const std::string title = fmt::format("{}: batch sheet", recipe.name);
  return page({.title = title,
               .subtitle = kit.name,
               .running_head = title,
               .running_foot = fmt::format("Lynearm · {}", kit.name),
               .paper = paper},
              body);
}

}  // namespace lynearm::sheet
