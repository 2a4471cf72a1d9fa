#include "station/wooded.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"
#include "station/laid_wood.hpp"
#include "station/taken_up.hpp"
#include "station/vessel.hpp"
#include "wood/lying.hpp"

namespace lynearm::station {
namespace {

using units::Duration;
using units::Share;
using units::Volume;
using wire::Likely;
using wire::WoodForecast;
using wire::WoodPoint;

constexpr int parts_of_a_course = 24;
constexpr double doubt = wood::extraction_doubt.fraction();

Likely<Share> doubted(Share extract) {
  return {extract * (1.0 - doubt), extract, extract * (1.0 + doubt)};
}

// One lot in its wood.
class Resting {
 public:
  Resting(const PlanMade& made, Trace& trace, const journal::LotState& lot, journal::Moment now,
          WoodForecast& told)
      : kit_(made.pair.kit), told_(told), wood_(trace.wood_of(lot)) {
    told_.in = lot.wood->in;
    told_.laid = spirit::volume(lot.made);
    told_.strength = spirit::strength(lot.made);
    told_.resting = trace.resting();
    told_.humidity = kit_.place.humidity;
    told_.staves = wood_.staves;
    if (wood_.cask) told_.cask = wood_.cask->volume;
    for (const wood::Wood& one : wood_.woods) told_.surface = told_.surface + one.surface;
    told_.times_a_200L_cask = wood::times_a_200L_cask(told_.surface);
    told_.soaked = wood_.drinks;
    const std::vector<Handling> handled = handlings(lot);
    lying_ = &trace.lying(lot, handled.empty() ? now : std::max(now, handled.back().moment));
    TakenUp before = trace.when_made(lot);
    if (before.unknown.empty()) before.unknown = trace.poured_untold(lot);
    tell_what_it_took_before(std::move(before));
    told_.woods = wood_.sets;
    for (std::size_t k = 0; k < told_.woods.size(); ++k) {
      told_.woods[k].given = wood::extract(wood_.woods[k], since(now, lot.told.at), rest());
    }
    if (wood_.cask) say_of_cask(*wood_.cask);
    const units::Spread<Share>& spread = kit_.constants.evaporation_factor;
    const double by = spread.half_width_80.fraction();
    for (const double factor : {std::max(0.05, spread.median.fraction() - by),
                                spread.median.fraction(), spread.median.fraction() + by}) {
      vessels_.emplace_back(wood_, wood::Cellar{told_.resting, told_.humidity},
                            Share::fraction(factor), lot.made, handled);
    }
  }
  Resting(const Resting&) = delete;
  Resting& operator=(const Resting&) = delete;

  WoodPoint at(Duration time) const {
    WoodPoint point;
    point.at = time;
    const Share extract = lying_->extract(time);
    point.extract = doubted(extract);
    point.like_cask_years = wood::cask_years_of(extract);
    const Vessel::Left low = vessels_[0].at(time);
    const Vessel::Left middle = vessels_[1].at(time);
    const Vessel::Left high = vessels_[2].at(time);
    point.evaporated = {low.gone, middle.gone, high.gone};
    point.volume = {high.volume, middle.volume, low.volume};
    const auto [weakest, strongest] =
        std::minmax({low.strength, middle.strength, high.strength});
    point.strength = {weakest, middle.strength, strongest};
    return point;
  }

  // When staves like these are usually called ready; the doubt of the amount, as one of time.
  std::optional<Likely<Duration>> ready() const {
    const auto middle = lying_->reaches(wood::ready);
    const auto low = lying_->reaches(wood::ready * (1.0 / (1.0 + doubt)));
    const auto high = lying_->reaches(wood::ready * (1.0 / (1.0 - doubt)));
    if (!middle || !low || !high) return {};
    return Likely<Duration>{*low, *middle, *high};
  }

 private:
  wood::Rest rest() const { return {told_.resting, told_.strength}; }

  void tell_what_it_took_before(TakenUp taken) {
    told_.carried = doubted(taken.extract);
    for (WoodBefore& one : taken.before) {
      told_.before.push_back({std::move(one.on), one.days, one.extract});
    }
    told_.carried_untold = std::move(taken.unknown);
    if (told_.carried_untold.empty()) return;
    told_.findings.push_back(
        {plan::Weight::remark, "former-wood-unknown", "Wood",
         "Some of what it took up before is not counted: " + told_.carried_untold + ".",
         "It comes besides: trust the nose, and correct the entry where it can be told."});
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
    if (cask.volume < Volume::litres(30.0) && !cask.used) {
      told_.findings.push_back(
          {plan::Weight::caution, "small-new-cask", "Wood",
           fmt::format(
               "A new cask of {:.0f} L gives wood {:.1f} times as fast as one of 200 L: "
               "it over-oaks within months.",
               cask.volume.litres(), wood::times_a_200L_cask(wood::cask_surface(cask.volume))),
           "Taste every two weeks; move the spirit to glass when it is enough."});
    }
  }

  const plan::Kit& kit_;
  WoodForecast& told_;
  LaidWood wood_;
  const wood::Lying* lying_ = nullptr;
  std::vector<Vessel> vessels_;
};

WoodForecast forecast(const PlanMade& made, Trace& trace, const journal::HouseState& house,
                      const journal::LotState& lot, journal::Moment now) {
  base::ensure(lot.wood.has_value(), "a lot that is forecast on wood lies on it");
  WoodForecast told;
  told.lot = lot.name;
  told.filled = lot.told.at;
  if (const std::string untold = trace.own_untold(lot); !untold.empty()) {
    told.untold = fmt::format(
        "Of this wood {}. Tell it by correcting its “wood filled” in the batch’s journal{}.",
        untold, untold.starts_with("its size") ? ", or add the cask to the kit" : "");
    return told;
  }
  try {
    const Resting resting(made, trace, lot, std::max(now, lot.told.at), told);
    const Duration so_far = std::max(Duration{}, since(now, lot.told.at));
    if (made.pair.recipe.wood) {
      told.planned =
          std::max(Duration{}, made.pair.recipe.wood->time - on_wood_before(house, lot));
    }
    told.now = resting.at(so_far);
    const Duration whole = std::max(so_far, told.planned.value_or(so_far));
    if (told.planned) told.end = resting.at(*told.planned);
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

}  // namespace

WoodForecast on_wood(const PlanMade& made, const journal::HouseState& house,
                     const journal::BatchState& batch, const journal::LotState& lot,
                     journal::Moment now) {
  Trace trace(made, house, batch.id);
  return forecast(made, trace, house, lot, now);
}

std::vector<WoodForecast> on_wood(const PlanMade& made, const journal::HouseState& house,
                                  const journal::BatchState& batch, journal::Moment now) {
  std::vector<WoodForecast> told;
  Trace trace(made, house, batch.id);
  for (const journal::LotState& lot : house.lots) {
    if (lot.batch == batch.id && lot.wood && lot.left.mass() > units::Mass{}) {
      told.push_back(forecast(made, trace, house, lot, now));
    }
  }
  return told;
}

}  // namespace lynearm::station
