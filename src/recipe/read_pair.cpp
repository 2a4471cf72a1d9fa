#include "recipe/read_pair.hpp"

#include <optional>
#include <utility>

#include "plan/plan.hpp"
#include "recipe/document.hpp"
#include "recipe/read_kit.hpp"
#include "recipe/read_recipe.hpp"

namespace lynearm::recipe {
namespace {

constexpr std::string_view of_the_kit = "kit.";

// What `read` makes of the text, or its faults into `all`.
template <class F>
auto read_or_note(const NamedText& text, F read, std::vector<base::Fault>& all)
    -> std::optional<decltype(read(text.text, text.file))> {
  try {
    return read(text.text, text.file);
  } catch (const base::InputError& error) {
    all.insert(all.end(), error.faults().begin(), error.faults().end());
    return std::nullopt;
  }
}

}  // namespace

Pair read_pair(const NamedText& recipe, const NamedText& kit) {
  std::vector<base::Fault> faults;
  std::optional<plan::Recipe> wanted = read_or_note(recipe, read_recipe, faults);
  std::optional<plan::Kit> has = read_or_note(kit, read_kit, faults);
  if (!faults.empty()) throw base::InputError(std::move(faults));
  faults = plan::contradictions(*wanted, *has);
  if (!faults.empty()) throw base::InputError(placed(std::move(faults), recipe, kit));
  return {*std::move(wanted), *std::move(has)};
}

std::vector<base::Fault> placed(std::vector<base::Fault> faults, const NamedText& recipe,
                                const NamedText& kit) {
  const Document wanted = parse_document(recipe.text, recipe.file);
  const Document has = parse_document(kit.text, kit.file);
  Description known = describe_recipe();
  std::vector<base::Fault> in_recipe;
  std::vector<base::Fault> in_kit;
  std::vector<base::Fault> nowhere;
  for (base::Fault& fault : faults) {
    const std::string_view path = fault.field;
    const bool placed_already = !fault.file.empty();
    if (!placed_already && path.starts_with(of_the_kit)) {
      fault.field = fault.field.substr(of_the_kit.size());
      in_kit.push_back(located(std::move(fault), has));
    } else if (!placed_already &&
               known.find(path.substr(0, path.find_first_of(".["))) != nullptr) {
      in_recipe.push_back(located(std::move(fault), wanted));
    } else {
      nowhere.push_back(std::move(fault));
    }
  }
  order_by_place(in_recipe);
  order_by_place(in_kit);
  faults = std::move(in_recipe);
  for (auto* rest : {&in_kit, &nowhere}) {
    for (base::Fault& fault : *rest) faults.push_back(std::move(fault));
  }
  return faults;
}

}  // namespace lynearm::recipe
