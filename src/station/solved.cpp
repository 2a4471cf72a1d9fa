#include "station/solved.hpp"

#include <fmt/format.h>

#include <utility>

#include "base/error.hpp"
#include "base/field_names.hpp"
#include "plan/backward.hpp"
#include "recipe/changes.hpp"
#include "station/planned.hpp"
#include "wire/answer.hpp"

namespace lynearm::station {
namespace {

bool names(const base::InputError& error, const std::string& field) {
  return error.faults().front().field == field;
}

// What stops a search is told of the wish: the recipe by itself was sound before it.
[[noreturn]] void tell_of_the_wish(const base::InputError& error, const std::string& field,
                                   const char* accepted) {
  const base::Fault& fault = error.faults().front();
  throw base::InputError(field, "this one",
                         fmt::format("{}; with this one {} would have to be {}", accepted,
                                     fault.field, fault.accepted));
}

plan::Solved to_kit(const recipe::Pair& pair) {
  try {
    return plan::scale_to_kit(pair.recipe, pair.kit);
  } catch (const base::InputError& error) {
    if (!names(error, "scale-to-kit")) throw;
    throw base::InputError("want", "kit", error.faults().front().accepted);
  }
}

plan::Solved to_spirit(const recipe::Pair& pair, const wire::SpiritWish& wish) {
  plan::Solved solved = base::with_names({{"for", "volume"}}, [&] {
    return plan::for_spirit(pair.recipe, pair.kit, wish.volume, wish.strength);
  });
  // The plan leaves hearts that are weaker as they are, which is not what was asked for.
  const units::VolumeStrength reached =
      plan::make(solved.recipe, pair.kit).finish.reduce.strength;
  if (reached < wish.strength - units::VolumeStrength::percent(1e-6)) {
    throw base::InputError(
        "strength", wish.strength_typed,
        fmt::format("a strength up to {:.1f} %vol, that of the hearts", reached.percent()));
  }
  return solved;
}

plan::Solved to_gravity(const recipe::Pair& pair, const wire::GravityWish& wish) {
  try {
    return plan::for_gravity(pair.recipe, pair.kit, wish.gravity);
  } catch (const base::InputError& error) {
    if (names(error, "gravity")) throw;
    tell_of_the_wish(error, "gravity", "a gravity that this recipe comes to");
  }
}

plan::Solved with_another(const recipe::Pair& pair, const wire::ReplaceWish& wish) {
  try {
    return plan::replaced(pair.recipe, pair.kit, wish.line, wish.ingredient);
  } catch (const base::InputError& error) {
    if (names(error, "line") || names(error, "ingredient")) throw;
    tell_of_the_wish(error, "ingredient", "an ingredient that the rest of the recipe suits");
  }
}

plan::Solved to_wish(const recipe::Pair& pair, const wire::Wish& wish) {
  if (const auto* spirit = std::get_if<wire::SpiritWish>(&wish))
    return to_spirit(pair, *spirit);
  if (const auto* gravity = std::get_if<wire::GravityWish>(&wish)) {
    return to_gravity(pair, *gravity);
  }
  if (const auto* replace = std::get_if<wire::ReplaceWish>(&wish)) {
    return with_another(pair, *replace);
  }
  return to_kit(pair);
}

}  // namespace

std::string solved(const wire::SolveAsked& asked) {
  const recipe::Pair pair = read_texts(asked.recipe, asked.kit);
  const plan::Solved solved = to_wish(pair, asked.wish);
  std::vector<wire::KeyChange> changes;
  for (recipe::Change& change : recipe::changes(pair.recipe, solved.recipe)) {
    changes.push_back({std::move(change.path), std::move(change.value)});
  }
  return wire::solved_json(solved.says, solved.factor, changes);
}

}  // namespace lynearm::station
