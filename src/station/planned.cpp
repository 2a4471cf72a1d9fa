#include "station/planned.hpp"

#include <algorithm>
#include <utility>

#include "base/error.hpp"

namespace lynearm::station {
namespace {

constexpr std::uint64_t seed = 1;  // the same texts give the same bands

std::shared_ptr<const PlanMade> make(const std::string& recipe_text,
                                     const std::string& kit_text, int members,
                                     const numeric::Executor& executor) {
  const recipe::NamedText recipe{recipe_text, "recipe"};
  const recipe::NamedText kit{kit_text, "kit"};
  recipe::Pair pair = recipe::read_pair(recipe, kit);
  try {
    plan::Plan plan = plan::make(pair.recipe, pair.kit);
    std::optional<plan::Bands> bands;
    if (members > 0) bands = plan::bands(pair.recipe, pair.kit, plan, members, seed, executor);
    return std::make_shared<const PlanMade>(
        PlanMade{std::move(pair), std::move(plan), std::move(bands)});
  } catch (const base::InputError& error) {
    throw base::InputError(recipe::placed(error.faults(), recipe, kit));
  }
}

}  // namespace

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

}  // namespace lynearm::station
