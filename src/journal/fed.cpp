#include "journal/fed.hpp"

#include <algorithm>
#include <cmath>

#include "ferment/follow.hpp"
#include "journal/pure_volume.hpp"

namespace lynearm::journal {
namespace {

constexpr double litres_per_kg = 1.0;  // sugar takes 0.62, water 1
constexpr double sugar_kg_per_litre = 1.2;
constexpr double alcohol_litres_per_kg = 0.65;
constexpr double gravity_per_kg_in_litre = 0.384;

double sugar_kg(const BatchState& batch) {
  double sum_kg = 0.0;
  for (const AddedState& one : batch.additions) {
    if (one.stage != Stage::ferment) continue;
    if (one.added.mass) {
      sum_kg += one.added.mass->kilograms();
    } else if (one.added.volume) {
      sum_kg += sugar_kg_per_litre * one.added.volume->litres();
    }
  }
  return sum_kg;
}

}  // namespace

units::Volume most_volume_fed(const BatchState& batch) {
  units::Volume sum;
  for (const AddedState& one : batch.additions) {
    if (one.stage != Stage::ferment) continue;
    const auto by_mass = units::Volume::litres(
        one.added.mass ? litres_per_kg * one.added.mass->kilograms() : 0.0);
    sum += std::max(by_mass, one.added.volume.value_or(units::Volume{}));
  }
  return sum;
}

units::Volume most_alcohol_fed(const BatchState& batch) {
  return units::Volume::litres(alcohol_litres_per_kg * sugar_kg(batch));
}

double most_gravity_fed(const BatchState& batch) {
  const auto& pitch = batch.ferment.pitch;
  if (!pitch || !(pitch->volume > units::Volume{})) return 0.0;
  return gravity_per_kg_in_litre * sugar_kg(batch) / pitch->volume.litres();
}

double gravity_sd(const FermentPoint& point) {
  return point.by_refractometer ? ferment::refractometer_sd : ferment::hydrometer_sd;
}

bool gained(const BatchState& batch, units::SpecificGravity from, double from_sd,
            const FermentPoint& to) {
  return to.gravity->ratio() - from.ratio() >
         most_gravity_fed(batch) + impossible_deviations * std::hypot(gravity_sd(to), from_sd);
}

bool above_the_pitch(const BatchState& batch, const FermentPoint& point) {
  const auto& pitch = batch.ferment.pitch;
  return pitch && !(point.told.at < pitch->told.at) &&
         gained(batch, pitch->gravity, ferment::hydrometer_sd, point);
}

}  // namespace lynearm::journal
