#include "station/laid_wood.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "base/error.hpp"
#include "spirit/lot.hpp"
#include "wood/sampling.hpp"
#include "wood/species.hpp"

namespace lynearm::station {
namespace {

using journal::LotState;

constexpr std::string_view in_glass = "staves";

class Laying {
 public:
  Laying(const plan::Kit& kit, const plan::WoodStep* step, const journal::HouseState& house,
         const LotState& lot)
      : kit_(kit), house_(house), lot_(lot), laid_(spirit::volume(lot.made)) {
    const journal::OnWood& on = *lot.wood;
    species_ = !on.species.empty() ? on.species : step != nullptr ? step->species : "";
    toast_ = !on.toast.empty() ? on.toast : step != nullptr ? step->toast : "";
    if (kit.staves) stave_ = {kit.staves->length, kit.staves->width, kit.staves->thickness};
  }

  LaidWood all() && {
    const journal::OnWood& on = *lot_.wood;
    const bool glass = on.in == in_glass;
    if (!glass) fill_cask();
    if (glass && !on.staves && on.besides.empty()) {
      throw base::InputError("staves", "none told", "the number of staves it lies on");
    }
    // What was told of the wood is of the cask, where there is one; staves told with it are
    // taken as of the same kind, and new.
    if (on.staves) {
      lay({*on.staves, species_, toast_, glass ? on.used_times : std::optional<int>{}});
    }
    for (const journal::StavesLaid& one : on.besides) lay(one);
    return std::move(out_);
  }

 private:
  wood::Wood of_kind(wood::Wood wood, wire::WoodSet& told, const std::string& species,
                     const std::string& toast, int used) const {
    if (species.empty() || toast.empty()) {
      throw base::InputError("wood", species.empty() ? "no species" : "no toast",
                             "a wood whose species and toast were told");
    }
    told.species = wood::species(species).name;
    told.toast = wood::toast(toast).name;
    told.used_times = used;
    told.surface = wood.surface;
    wood.richness = wood::gift(wood::species(species), wood::toast(toast)).colour;
    wood.fill = used + 1;
    return wood;
  }

  void lay(const journal::StavesLaid& one) {
    wire::WoodSet told;
    told.staves = one.staves;
    const int used = one.used_times.value_or(0);
    out_.woods.push_back(of_kind(wood::staves(stave_, one.staves, laid_), told,
                                 one.species.empty() ? species_ : one.species,
                                 one.toast.empty() ? toast_ : one.toast, used));
    out_.sets.push_back(told);
    out_.staves += one.staves;
    if (used == 0) out_.drinks = out_.drinks + wood::soak_in(stave_, one.staves);
  }

  void fill_cask() {
    const std::string& name = lot_.wood->in;
    const auto cask = std::find_if(kit_.casks.begin(), kit_.casks.end(),
                                   [&](const plan::Cask& c) { return c.name == name; });
    if (cask == kit_.casks.end()) {
      throw base::InputError("in", name, "staves, or a cask of the kit");
    }
    const int used =
        lot_.wood->used_times.value_or(std::max(cask->used ? 1 : 0, emptied_before(name)));
    wire::WoodSet told;
    told.cask = name;
    wood::Wood wood = wood::cask(cask->volume);
    wood.depth = cask->stave_thickness;
    out_.woods.push_back(of_kind(wood, told, species_, toast_, used));
    out_.sets.push_back(told);
    out_.cask = *cask;
    out_.cask->used = used > 0;
    out_.walls = wood::walls(cask->volume, false);
    out_.walls.thickness = cask->stave_thickness;
    if (used == 0) out_.drinks = wood::soak_in(out_.walls.area);
  }

  // Moved on to other wood, or used up where it lay.
  static bool gone(const journal::LotState& lot) {
    return !lot.uses.empty() && lot.left.mass() <= units::Mass{};
  }

  // Lots that had come off this cask when this one was laid in it.
  int emptied_before(const std::string& name) const {
    int times = 0;
    for (const LotState& other : house_.lots) {
      if (!other.wood || other.wood->in != name || other.name == lot_.name) continue;
      const bool off = std::any_of(other.uses.begin(), other.uses.end(), [&](const auto& use) {
        return use.where == off_the_wood && use.told.at <= lot_.told.at;
      });
      times += off || (gone(other) && other.uses.back().told.at <= lot_.told.at);
    }
    return std::min(times, 9);
  }

  const plan::Kit& kit_;
  const journal::HouseState& house_;
  const LotState& lot_;
  units::Volume laid_;
  std::string species_, toast_;
  wood::Stave stave_;
  LaidWood out_;
};

}  // namespace

LaidWood laid_wood(const plan::Kit& kit, const plan::WoodStep* step,
                   const journal::HouseState& house, const LotState& lot) {
  return Laying(kit, step, house, lot).all();
}

}  // namespace lynearm::station
