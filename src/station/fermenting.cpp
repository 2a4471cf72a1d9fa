#include "station/fermenting.hpp"

#include <fmt/format.h>

#include <utility>

#include "base/error.hpp"
#include "ferment/yeast.hpp"
#include "numeric/normal.hpp"
#include "plan/house.hpp"
#include "wort/gravity.hpp"

namespace lynearm::station {
namespace {

constexpr std::size_t members = 400;
constexpr std::uint64_t seed = 1;  // the same readings give the same forecast

double sd_of(const units::Spread<units::Share>& spread) {
  return spread.half_width_80.fraction() / spread.median.fraction() / numeric::half_of_80;
}

ferment::PaceDoubt doubt_of(const plan::Kit& kit) {
  ferment::PaceDoubt doubt;
  doubt.vigour_ln = std::max(0.01, sd_of(kit.constants.ferment_vigour));
  doubt.sugar = std::max(0.002, sd_of(kit.constants.fermentable_factor));
  return doubt;
}

std::string text_of(const journal::PitchState& pitch, const FermentReadings& read) {
  std::string text =
      fmt::format("{} {} {} {}", pitch.told.at.milliseconds, pitch.volume.litres(),
                  pitch.gravity.ratio(), pitch.mass.grams());
  for (std::size_t i = 0; i < read.readings.size(); ++i) {
    const ferment::Reading& one = read.readings[i];
    text += fmt::format("\n{} {} {} {} {}", print(read.entries[i]), one.at.seconds(),
                        one.gravity ? one.gravity->ratio() : 0.0, one.by_refractometer,
                        one.temperature ? one.temperature->celsius() : -300.0);
  }
  return text;
}

}  // namespace

ferment::Batch batch_pitched(const PlanMade& made, const journal::PitchState& pitch) {
  const plan::Recipe& recipe = made.pair.recipe;
  const plan::Kit& kit = made.pair.kit;
  const plan::WortPlan& wort = made.plan.mash.wort;
  ferment::Batch batch;
  batch.wort = wort::wort(pitch.volume, wort::plato(pitch.gravity));
  batch.sugars = {wort.fermentable, wort.hexose_per_gram};
  batch.yeast = pitch.mass;
  const double extract =
      wort.whole.extract > units::Mass{} ? batch.wort.extract / wort.whole.extract : 1.0;
  batch.nitrogen = made.plan.ferment.nutrition.nitrogen * extract +
                   units::Mass::grams(recipe.ferment.nutrient_nitrogen.grams_per_litre() *
                                      pitch.volume.litres());
  batch.pitched_at = wort.top_up.temperature;
  batch.tolerance = ferment::yeast(recipe.ferment.yeast).tolerance.value;
  batch.yield = kit.constants.alcohol_yield.median;
  batch.vessel.room = kit.place.ambient;
  batch.vessel.loss = plan::vessel_named(kit, recipe.ferment.vessel).loss_lid_on *
                      kit.constants.heat_loss_factor.median.fraction();
  batch.vessel.held = recipe.ferment.held;
  return batch;
}

FermentReadings readings_of(const journal::FermentState& ferment) {
  FermentReadings out;
  if (!ferment.pitch) return out;
  for (const journal::FermentPoint& point : ferment.points) {
    const units::Duration at = since(point.told.at, ferment.pitch->told.at);
    // Before the pitch it is of the wort, after racking of the wash.
    if (at < units::Duration{} || at > units::Duration::days(120.0)) continue;
    if (ferment.racked && point.told.at > ferment.racked->told.at) continue;
    out.readings.push_back({at, point.gravity, point.by_refractometer, point.temperature});
    out.entries.push_back(point.told.entry);
  }
  return out;
}

std::shared_ptr<const wire::FermentForecast> Fermenting::of(const PlanMade& made,
                                                            const std::string& made_of,
                                                            const journal::BatchState& batch) {
  base::ensure(batch.ferment.pitch.has_value(), "a ferment that is followed was pitched");
  const journal::PitchState& pitch = *batch.ferment.pitch;
  const FermentReadings read = readings_of(batch.ferment);
  const std::string of = text_of(pitch, read) + "\n" + made_of;
  {
    const std::lock_guard lock(mutex_);
    const auto found = kept_.find(batch.id);
    if (found != kept_.end() && found->second.of == of) return found->second.told;
  }
  const plan::Recipe& recipe = made.pair.recipe;
  const plan::Kit& kit = made.pair.kit;
  const ferment::Yeast& yeast = ferment::yeast(recipe.ferment.yeast);
  ferment::Kinetics kinetics;
  kinetics.vigour = kit.constants.ferment_vigour.median.fraction();

  wire::FermentForecast told;
  told.pitched = pitch.told;
  told.readings = read.entries;
  told.followed = ferment::follow(batch_pitched(made, pitch), kinetics, yeast, doubt_of(kit),
                                  read.readings, seed, members, executor_);
  told.planned_ending = made.plan.ferment.pace.ending;
  told.planned_dry = made.plan.ferment.pace.dry_after;
  told.rest = recipe.ferment.rest_after_dry;
  told.yeast = std::string(yeast.name);
  told.original = pitch.gravity;
  told.pitched_yeast = pitch.mass;
  told.volume = pitch.volume;
  told.room = kit.place.ambient;
  auto kept = std::make_shared<const wire::FermentForecast>(std::move(told));
  const std::lock_guard lock(mutex_);
  kept_[batch.id] = {of, kept};
  return kept;
}

std::shared_ptr<const wire::FermentForecast> Fermenting::ready(const journal::Id& batch) const {
  const std::lock_guard lock(mutex_);
  const auto found = kept_.find(batch);
  return found == kept_.end() ? nullptr : found->second.told;
}

}  // namespace lynearm::station
