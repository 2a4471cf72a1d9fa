// The wood that a lot was laid on, as the journal tells it, with the casks and staves of the
// kit: each with its surface to a litre and the share that earlier spirit left in it. Leaves
// out how much an earlier spirit truly drew: a wood that was used holds what such wood usually
// does.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "journal/state.hpp"
#include "plan/kit.hpp"
#include "plan/recipe.hpp"
#include "wire/wood_forecast.hpp"
#include "wood/evaporation.hpp"
#include "wood/extraction.hpp"

namespace lynearm::station {

/// A lot's uses when it is taken off, as the journal's fold words them.
inline constexpr std::string_view off_the_wood = "off the wood";
inline constexpr std::string_view left_in_wood_and_air = "soaked and evaporated";

struct LaidWood {
  std::vector<wire::WoodSet> sets;  ///< as told: the cask first, else the first staves
  std::vector<wood::Wood> woods;    ///< of each set
  int staves = 0;                   ///< of all sets
  std::optional<plan::Cask> cask;   ///< `used`, if it is, by the journal too
  wood::Walls walls;                ///< of the cask; not new: what it drinks is in `drinks`
  units::Volume drinks;             ///< new wood takes it up at once
};

/// What of a lot's wood was not told, in the words of the page's fields: "species and toast
/// were not told". Empty where laid_wood() takes it.
[[nodiscard]] std::string wood_untold(const plan::Kit& kit, const plan::WoodStep* step,
                                      const journal::LotState& lot);

/// lot        on wood
/// step       of the recipe whose plan laid it, or null: for what the journal leaves untold
/// throws     InputError where wood_untold() is not empty
/// source     a cask is as often used as the kit says, as the journal has other lots that came
///            off it before, or as was told: told counts, else the more of the others
[[nodiscard]] LaidWood laid_wood(const plan::Kit& kit, const plan::WoodStep* step,
                                 const journal::HouseState& house,
                                 const journal::LotState& lot);

}  // namespace lynearm::station
