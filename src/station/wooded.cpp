#include "station/wooded.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <variant>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"
#include "wood/evaporation.hpp"
#include "wood/extraction.hpp"
#include "wood/sampling.hpp"
#include "wood/species.hpp"

namespace lynearm::station {
namespace {

using units::Duration;
using units::Share;
using wire::Likely;
using wire::WoodForecast;
using wire::WoodPoint;

constexpr int parts_of_a_course = 24;

// One lot in its wood.
class Resting {
 public:
  Resting(const PlanMade& made, const journal::LotState& lot, WoodForecast& told)
      : kit_(made.pair.kit), step_(made.pair.recipe.wood), lot_(lot), told_(told) {
    told_.in = lot.wood->in;
    told_.laid = spirit::volume(lot.made);
    told_.strength = spirit::strength(lot.made);
    told_.resting = step_ ? step_->temperature : kit_.place.ambient;
    told_.humidity = kit_.place.humidity;
    name_the_wood();
    if (in_staves()) {
      lay_staves();
    } else {
      fill_cask();
    }
    wood_.richness = richness_;
    told_.surface = wood_.surface;
    told_.times_a_200L_cask = wood::times_a_200L_cask(wood_.surface);
    const units::Spread<Share>& spread = kit_.constants.evaporation_factor;
    loss_ = {Share::fraction(
                 std::max(0.05, spread.median.fraction() - spread.half_width_80.fraction())),
             spread.median,
             Share::fraction(spread.median.fraction() + spread.half_width_80.fraction())};
  }

  WoodPoint at(Duration time) const {
    WoodPoint point;
    point.at = time;
    const Share extract = wood::extract(wood_, time, rest());
    const double doubt = wood::extraction_doubt.fraction();
    point.extract = {extract * (1.0 - doubt), extract, extract * (1.0 + doubt)};
    point.like_cask_years = wood::cask_years_of(extract);
    const Left low = left(time, loss_.low);
    const Left middle = left(time, loss_.median);
    const Left high = left(time, loss_.high);
    point.evaporated = {low.gone, middle.gone, high.gone};
    point.volume = {high.volume, middle.volume, low.volume};
    const auto [weakest, strongest] =
        std::minmax({low.strength, middle.strength, high.strength});
    point.strength = {weakest, middle.strength, strongest};
    return point;
  }

  // When staves like these are usually called ready; the doubt of the amount, as one of time.
  std::optional<Likely<Duration>> ready() const {
    const double doubt = wood::extraction_doubt.fraction();
    const auto middle = wood::time_to(wood::ready, wood_, rest());
    const auto low = wood::time_to(wood::ready * (1.0 / (1.0 + doubt)), wood_, rest());
    const auto high = wood::time_to(wood::ready * (1.0 / (1.0 - doubt)), wood_, rest());
    if (!middle || !low || !high) return {};
    return Likely<Duration>{*low, *middle, *high};
  }

 private:
  struct Left {
    units::Volume gone, volume;
    units::VolumeStrength strength;
  };

  wood::Rest rest() const { return {told_.resting, told_.strength}; }
  bool in_staves() const { return lot_.wood->in == "staves"; }

  void name_the_wood() {
    const journal::OnWood& on = *lot_.wood;
    const std::string species = !on.species.empty() ? on.species : step_ ? step_->species : "";
    const std::string toast = !on.toast.empty() ? on.toast : step_ ? step_->toast : "";
    if (species.empty() || toast.empty()) {
      throw base::InputError("wood", species.empty() ? "no species" : "no toast",
                             "a wood whose species and toast were told");
    }
    told_.species = wood::species(species).name;
    told_.toast = wood::toast(toast).name;
    richness_ = wood::gift(wood::species(species), wood::toast(toast)).colour;
  }

  void lay_staves() {
    if (kit_.staves) {
      stave_ = {kit_.staves->length, kit_.staves->width, kit_.staves->thickness};
    }
    if (!lot_.wood->staves) {
      throw base::InputError("staves", "none told", "the number of staves it lies on");
    }
    told_.staves = *lot_.wood->staves;
    wood_ = wood::staves(stave_, told_.staves, told_.laid);
  }

  void fill_cask() {
    const auto cask = std::find_if(kit_.casks.begin(), kit_.casks.end(),
                                   [&](const plan::Cask& c) { return c.name == told_.in; });
    if (cask == kit_.casks.end()) {
      throw base::InputError("in", told_.in, "staves, or a cask of the kit");
    }
    told_.cask = cask->volume;
    told_.used = cask->used;
    wood_ = wood::cask(cask->volume);
    wood_.depth = cask->stave_thickness;
    wood_.fill = cask->used ? 2 : 1;
    walls_ = wood::walls(cask->volume, !cask->used);
    walls_.thickness = cask->stave_thickness;
    say_of_cask(*cask);
  }

  void say_of_cask(const plan::Cask& cask) {
    const double empty = 1.0 - told_.laid / cask.volume;
    if (empty < 0.03) {
      told_.findings.push_back(
          {plan::Weight::caution, "little-ullage", "Wood",
           fmt::format("{:.2f} L in a cask of {:.1f} L leaves {:.1f} % empty.",
                       told_.laid.litres(), cask.volume.litres(), 100.0 * std::max(0.0, empty)),
           "Draw some off until 3 to 5 % are empty: spirit swells when it warms."});
    }
    if (cask.volume < units::Volume::litres(30.0) && !cask.used) {
      told_.findings.push_back(
          {plan::Weight::caution, "small-new-cask", "Wood",
           fmt::format(
               "A new cask of {:.0f} L gives wood {:.1f} times as fast as one of 200 L: "
               "it over-oaks within months.",
               cask.volume.litres(), wood::times_a_200L_cask(wood::cask_surface(cask.volume))),
           "Taste every two weeks; move the spirit to glass when it is enough."});
    }
  }

  Left left(Duration time, Share factor) const {
    spirit::Lot rested;
    spirit::Lot soaked;
    if (told_.cask) {
      wood::Permeability oak;
      oak.water *= factor.fraction();
      oak.ethanol *= factor.fraction();
      const wood::Rested after =
          wood::rest(lot_.made, walls_, {told_.resting, told_.humidity}, time, oak);
      rested = after.course.back().lot;
      soaked = after.soaked;
    } else {
      const wood::GlassRest after = wood::rest_in_glass(lot_.made, stave_, told_.staves, time,
                                                        wood::good_closure * factor.fraction());
      rested = after.left;
      soaked = after.soaked;
    }
    const units::Volume volume = spirit::volume(rested);
    const units::Volume drunk =
        soaked.mass() > units::Mass{} ? spirit::volume(soaked) : units::Volume{};
    return {told_.laid - drunk - volume, volume, spirit::strength(rested)};
  }

  const plan::Kit& kit_;
  const std::optional<plan::WoodStep>& step_;
  const journal::LotState& lot_;
  WoodForecast& told_;
  wood::Wood wood_;
  double richness_ = 1.0;
  wood::Stave stave_;
  wood::Walls walls_;
  Likely<Share> loss_{};
};

// What rested there unmoved, less samples and whatever else was drawn since, with what it was
// topped up with. That which was poured after is taken to lose nothing: how long it lies there
// is a small part of the whole.
void as_handled(WoodPoint& at, const journal::LotState& lot) {
  units::Volume drawn;
  spirit::Lot poured;
  for (const journal::LotUse& use : lot.uses) {
    if (use.where == journal::topped_up) {
      poured = poured + use.lot * -1.0;
    } else if (use.lot.mass() > units::Mass{}) {
      drawn = drawn + spirit::volume(use.lot);
    }
  }
  const auto handled = [&](units::Volume& volume, units::VolumeStrength& strength) {
    volume = std::max(units::Volume{}, volume - drawn);
    if (poured.mass() <= units::Mass{}) return;
    const spirit::Lot whole = spirit::lot(volume, strength) + poured;
    volume = spirit::volume(whole);
    strength = spirit::strength(whole);
  };
  handled(at.volume.low, at.strength.low);
  handled(at.volume.median, at.strength.median);
  handled(at.volume.high, at.strength.high);
}

}  // namespace

WoodForecast on_wood(const PlanMade& made, const journal::LotState& lot, journal::Moment now) {
  base::ensure(lot.wood.has_value(), "a lot that is forecast on wood lies on it");
  WoodForecast told;
  told.lot = lot.name;
  told.filled = lot.told.at;
  try {
    const Resting resting(made, lot, told);
    const Duration so_far = std::max(Duration{}, since(now, lot.told.at));
    if (made.pair.recipe.wood) told.planned = made.pair.recipe.wood->time;
    told.now = resting.at(so_far);
    told.soaked = told.laid - told.now.volume.median - told.now.evaporated.median;
    as_handled(told.now, lot);
    const Duration whole = std::max(so_far, told.planned.value_or(so_far));
    if (told.planned) {
      told.end = resting.at(*told.planned);
      as_handled(*told.end, lot);
    }
    told.ready = resting.ready();
    for (int k = 0; k <= parts_of_a_course && whole > Duration{}; ++k) {
      // Close at first, as the wood gives.
      const double share = static_cast<double>(k) / parts_of_a_course;
      told.course.push_back(resting.at(whole * (share * share)));
    }
  } catch (const base::InputError& fault) {
    told.untold = fault.what();
  }
  return told;
}

std::vector<WoodForecast> on_wood(const PlanMade& made, const journal::HouseState& house,
                                  const journal::BatchState& batch, journal::Moment now) {
  std::vector<WoodForecast> told;
  for (const journal::LotState& lot : house.lots) {
    if (lot.batch == batch.id && lot.wood && lot.left.mass() > units::Mass{}) {
      told.push_back(on_wood(made, lot, now));
    }
  }
  return told;
}

}  // namespace lynearm::station
