#include "journal/fed.hpp"

#include <algorithm>
#include <cmath>

#include "ferment/follow.hpp"
#include "journal/pure_volume.hpp"

namespace lynearm::journal {
namespace {

using units::Volume;

constexpr double litres_per_kg = 1.0;  // sugar takes 0.62, water 1
constexpr double sugar_kg_per_litre = 1.2;
constexpr double alcohol_litres_per_kg = 0.65;
constexpr double gravity_per_kg_in_litre = 0.384;
constexpr double twice = 2.0;

double sugar_kg(const Added& added) {
  if (added.mass) return added.mass->kilograms();
  return added.volume ? sugar_kg_per_litre * added.volume->litres() : 0.0;
}

bool after_the_pitch(const BatchState& batch, const Told& told) {
  return batch.ferment.pitch && since(told.at, batch.ferment.pitch->told.at) > written_late;
}

bool in_the_ferment(const BatchState& batch, const AddedState& one) {
  return one.stage == Stage::ferment || after_the_pitch(batch, one.told);
}

bool between(const Told& told, Moment from, Moment to) {
  return !(since(from, told.at) > written_late) && !(since(told.at, to) > written_late);
}

template <typename Which>
double most_gravity_of(const BatchState& batch, Moment from, Moment to, const Which& which) {
  const auto& pitch = batch.ferment.pitch;
  if (!pitch || !(pitch->volume > Volume{})) return 0.0;
  double sum_kg = 0.0;
  for (const AddedState& one : batch.additions) {
    if (between(one.told, from, to) && which(one)) sum_kg += sugar_kg(one.added);
  }
  return gravity_per_kg_in_litre * sum_kg / pitch->volume.litres();
}

// What a wort poured in can raise a gravity by.
double most_by_worts(const BatchState& batch, units::SpecificGravity gravity, Moment from,
                     Moment to) {
  double sum = 0.0;
  for (const WortState& wort : batch.mash.worts) {
    if (!after_the_pitch(batch, wort.told) || !between(wort.told, from, to)) continue;
    const double share = wort.volume / (wort.volume + batch.ferment.pitch->volume);
    sum += share * std::max(0.0, wort.gravity.ratio() - gravity.ratio());
  }
  return sum;
}

}  // namespace

Volume most_volume_fed(const BatchState& batch) {
  Volume sum;
  for (const AddedState& one : batch.additions) {
    if (!in_the_ferment(batch, one)) continue;
    const auto by_mass =
        Volume::litres(one.added.mass ? litres_per_kg * one.added.mass->kilograms() : 0.0);
    sum += std::max(by_mass, one.added.volume.value_or(Volume{}));
  }
  for (const WortState& wort : batch.mash.worts) {
    if (after_the_pitch(batch, wort.told)) sum += wort.volume;
  }
  return sum;
}

Volume most_alcohol_fed(const BatchState& batch) {
  double sum_kg = 0.0;
  for (const AddedState& one : batch.additions) {
    if (in_the_ferment(batch, one)) sum_kg += sugar_kg(one.added);
  }
  for (const WortState& wort : batch.mash.worts) {
    if (after_the_pitch(batch, wort.told)) sum_kg += wort.extract.kilograms();
  }
  return Volume::litres(alcohol_litres_per_kg * sum_kg);
}

double most_gravity_added(const BatchState& batch, Moment from, Moment to) {
  return most_gravity_of(batch, from, to, [](const AddedState&) { return true; });
}

double gravity_sd(const FermentPoint& point) {
  return point.by_refractometer ? ferment::refractometer_sd : ferment::hydrometer_sd;
}

bool gained(const BatchState& batch, const FermentPoint& from, const FermentPoint& to,
            double more) {
  const double sd = std::hypot(gravity_sd(from), gravity_sd(to));
  const double gain = to.gravity->ratio() - from.gravity->ratio();
  // Nearly always there is none, and nobody need look for what was put in.
  if (!(gain > more + impossible_deviations * sd)) return false;
  // A refractometer's figure is reckoned by the wort at the pitch, and too high once fed.
  const double told_as = to.by_refractometer ? twice : 1.0;
  return gain > more + impossible_deviations * sd +
                    told_as * most_gravity_of(batch, from.told.at, to.told.at,
                                              [&batch](const AddedState& one) {
                                                return in_the_ferment(batch, one);
                                              }) +
                    most_by_worts(batch, *from.gravity, from.told.at, to.told.at);
}

bool above_the_pitch(const BatchState& batch, const FermentPoint& point) {
  const auto& pitch = batch.ferment.pitch;
  return pitch && !(point.told.at < pitch->told.at) &&
         gained(batch, {pitch->told, pitch->gravity, false, {}}, point);
}

}  // namespace lynearm::journal
