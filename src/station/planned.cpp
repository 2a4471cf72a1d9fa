#include "station/planned.hpp"

#include <algorithm>
#include <utility>

#include "base/error.hpp"

namespace lynearm::station {
namespace {

constexpr const char* recipe_file = "recipe";
constexpr const char* kit_file = "kit";
constexpr std::uint64_t seed = 1;  // the same texts give the same bands

constexpr std::string_view of_the_kit = "kit.";

// On a page both texts are one form, so a fault says by its field which of them it is in.
std::vector<base::Fault> in_one_form(std::vector<base::Fault> faults) {
  for (base::Fault& fault : faults) {
    const bool of_a_key = fault.field.find(' ') == std::string::npos;  // not "the text"
    if (fault.file == kit_file && of_a_key && !fault.field.starts_with(of_the_kit)) {
      fault.field.insert(0, of_the_kit);
    }
  }
  return faults;
}

std::shared_ptr<const PlanMade> make(const std::string& recipe_text,
                                     const std::string& kit_text, int members,
                                     const numeric::Executor& executor) {
  recipe::Pair pair = read_texts(recipe_text, kit_text);
  try {
    plan::Plan plan = plan::make(pair.recipe, pair.kit);
    std::optional<plan::Bands> bands;
    if (members > 0) bands = plan::bands(pair.recipe, pair.kit, plan, members, seed, executor);
    return std::make_shared<const PlanMade>(
        PlanMade{std::move(pair), std::move(plan), std::move(bands)});
  } catch (const base::InputError& error) {
    throw base::InputError(in_one_form(
        recipe::placed(error.faults(), {recipe_text, recipe_file}, {kit_text, kit_file})));
  }
}

}  // namespace

recipe::Pair read_texts(const std::string& recipe, const std::string& kit) {
  try {
    return recipe::read_pair({recipe, recipe_file}, {kit, kit_file});
  } catch (const base::InputError& error) {
    throw base::InputError(in_one_form(error.faults()));
  }
}

std::shared_ptr<const PlanMade> Planned::of(const std::string& recipe, const std::string& kit,
                                            int members) {
  {
    const std::lock_guard lock(mutex_);
    const auto found = std::find_if(kept_.begin(), kept_.end(), [&](const Kept& kept) {
      return kept.members == members && kept.recipe == recipe && kept.kit == kit;
    });
    if (found != kept_.end()) {
      kept_.splice(kept_.begin(), kept_, found);
      return kept_.front().made;
    }
  }
  std::shared_ptr<const PlanMade> made = make(recipe, kit, members, executor_);
  const std::lock_guard lock(mutex_);
  kept_.push_front({recipe, kit, members, made});
  if (kept_.size() > most_kept) kept_.pop_back();
  return made;
}

std::shared_ptr<const PlanMade> Planned::ready(const std::string& recipe,
                                               const std::string& kit) const {
  const std::lock_guard lock(mutex_);
  const auto found = std::find_if(kept_.begin(), kept_.end(), [&](const Kept& kept) {
    return kept.recipe == recipe && kept.kit == kit;
  });
  return found == kept_.end() ? nullptr : found->made;
}

}  // namespace lynearm::station
