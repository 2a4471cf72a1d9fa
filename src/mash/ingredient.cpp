#include "mash/ingredient.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"

namespace lynearm::mash {

const std::vector<Ingredient>& ingredients() {
  static const std::vector<Ingredient> table = {
#include "mash/ingredients.inc"
  };
  return table;
}

std::vector<std::string> ingredient_ids() {
  std::vector<std::string> ids;
  ids.reserve(ingredients().size());
  for (const Ingredient& row : ingredients()) ids.push_back(row.id);
  return ids;
}

const Ingredient& ingredient(std::string_view id) {
  const auto& table = ingredients();
  const auto found = std::find_if(table.begin(), table.end(),
                                  [id](const Ingredient& row) { return row.id == id; });
  if (found != table.end()) return *found;
  const std::string near = base::nearest_name(id, ingredient_ids());
  throw base::InputError("ingredient", std::string(id),
                         near.empty() ? std::string("the id of an ingredient of the table")
                                      : fmt::format("an ingredient such as \"{}\"", near));
}

bool is_grain(const Ingredient& ingredient) {
  switch (ingredient.sort) {
    case Sort::raw_grain:
    case Sort::gelatinised_grain:
    case Sort::malt:
    case Sort::roasted_malt:
      return true;
    case Sort::sugar:
    case Sort::honey:
    case Sort::molasses:
      return false;
  }
  return false;
}

}  // namespace lynearm::mash
