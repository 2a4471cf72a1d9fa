#include "station/laid_wood.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "spirit/lot.hpp"
#include "wood/sampling.hpp"
#include "wood/species.hpp"

namespace lynearm::station {
namespace {

using journal::LotState;

constexpr std::string_view in_glass = "staves";

// Species and toast of the first wood, where the journal leaves them untold by the plan's.
struct Kind {
  std::string species, toast;
};
Kind kind_of(const journal::OnWood& on, const plan::WoodStep* step) {
  return {!on.species.empty() ? on.species
          : step != nullptr   ? step->species
                              : "",
          !on.toast.empty() ? on.toast
          : step != nullptr ? step->toast
                            : ""};
}

const plan::Cask* cask_named(const plan::Kit& kit, const std::string& name) {
  const auto cask = std::find_if(kit.casks.begin(), kit.casks.end(),
                                 [&](const plan::Cask& c) { return c.name == name; });
  return cask == kit.casks.end() ? nullptr : &*cask;
}

// Whether a table of the wood has it.
template <class Rows>
bool is_known(const Rows& rows, const std::string& id) {
  return std::any_of(rows.begin(), rows.end(), [&](const auto& row) { return row.id == id; });
}

class Laying {
 public:
  Laying(const plan::Kit& kit, const plan::WoodStep* step, const journal::HouseState& house,
         const LotState& lot)
      : kit_(kit), house_(house), lot_(lot), laid_(spirit::volume(lot.made)) {
    Kind kind = kind_of(*lot.wood, step);
    species_ = std::move(kind.species);
    toast_ = std::move(kind.toast);
    if (kit.staves) stave_ = {kit.staves->length, kit.staves->width, kit.staves->thickness};
  }

  LaidWood all() && {
    const journal::OnWood& on = *lot_.wood;
    if (on.in != in_glass) fill_cask();
    // What was told of the wood is of the cask, where there is one; staves told with it are
    // taken as of the same kind, and new.
    if (on.staves) {
      lay({*on.staves, species_, toast_,
           on.in == in_glass ? on.used_times : std::optional<int>{}});
    }
    for (const journal::StavesLaid& one : on.besides) lay(one);
    return std::move(out_);
  }

 private:
  wood::Wood of_kind(wood::Wood wood, wire::WoodSet& told, const std::string& species,
                     const std::string& toast, int used) const {
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
    const plan::Cask* const cask = cask_named(kit_, name);
    base::ensure(cask != nullptr, "a cask that is not in the kit is told as untold");
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

std::string wood_untold(const plan::Kit& kit, const plan::WoodStep* step, const LotState& lot) {
  const journal::OnWood& on = *lot.wood;
  const bool glass = on.in == in_glass;
  if (!glass && cask_named(kit, on.in) == nullptr) {
    return fmt::format("its size is not known: “{}” is not among the casks of the kit", on.in);
  }
  const Kind first = kind_of(on, step);
  const bool counted = on.staves || !on.besides.empty();
  std::vector<Kind> kinds;
  if (!glass || on.staves || !counted) kinds.push_back(first);
  for (const journal::StavesLaid& one : on.besides) {
    kinds.push_back({one.species.empty() ? first.species : one.species,
                     one.toast.empty() ? first.toast : one.toast});
  }
  const auto lacks = [&](std::string Kind::*of) {
    return std::any_of(kinds.begin(), kinds.end(),
                       [&](const Kind& kind) { return (kind.*of).empty(); });
  };
  std::vector<std::string> missing;
  if (glass && !counted) missing.emplace_back("the number of staves");
  if (lacks(&Kind::species)) missing.emplace_back("species");
  if (lacks(&Kind::toast)) missing.emplace_back("toast");
  if (!missing.empty()) {
    const std::string last = missing.back();
    missing.pop_back();
    if (missing.empty()) return last + " was not told";
    return fmt::format("{} and {} were not told", fmt::join(missing, ", "), last);
  }
  for (const Kind& kind : kinds) {
    if (!is_known(wood::species(), kind.species)) {
      return fmt::format("“{}” is not among the species that are known here", kind.species);
    }
    if (!is_known(wood::toasts(), kind.toast)) {
      return fmt::format("“{}” is not among the toasts that are known here", kind.toast);
    }
  }
  return {};
}

LaidWood laid_wood(const plan::Kit& kit, const plan::WoodStep* step,
                   const journal::HouseState& house, const LotState& lot) {
  if (const std::string untold = wood_untold(kit, step, lot); !untold.empty()) {
    throw base::InputError("wood", lot.wood->in, untold);
  }
  return Laying(kit, step, house, lot).all();
}

}  // namespace lynearm::station
