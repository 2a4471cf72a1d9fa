// Mash and ferment: temperatures, waters, worts, gravities, and what the wash holds.
#include <algorithm>

#include "base/error.hpp"
#include "journal/folding.hpp"
#include "journal/meaning.hpp"

namespace lynearm::journal {

units::Mass MashState::extract() const {
  units::Mass sum;
  for (const WortState& wort : worts) sum += wort.extract;
  return sum;
}

bool Folding::on(const MashTemperature& body) {
  batch().mash.temperatures.push_back({told(), body.temperature});
  return true;
}

bool Folding::on(const MashWater& body) {
  batch().mash.waters.push_back({told(), body.volume, body.temperature});
  return true;
}

bool Folding::on(const WortDrawn& body) {
  const units::SpecificGravity gravity = wort_gravity(body.gravity);
  const units::Volume volume = wort_volume(body.volume, gravity);
  batch().mash.worts.push_back(
      {told(), body.from, volume, gravity, extract_in(volume, gravity)});
  return true;
}

bool Folding::on(const Pitched& body) {
  BatchState& of = batch();
  if (of.ferment.pitch) throw base::InputError("pitched", "again", "one pitch a batch");
  const units::SpecificGravity gravity = wort_gravity(body.gravity);
  const units::Volume volume = wort_volume(body.volume, gravity);
  of.ferment.pitch =
      PitchState{told(), volume, gravity, extract_in(volume, gravity), body.yeast, body.mass};
  renew_wash(of);
  return true;
}

bool Folding::on(const FermentRead& body) {
  BatchState& of = batch();
  FermentPoint point{told(), std::nullopt, false, body.temperature};
  if (body.gravity) {
    point.by_refractometer = body.gravity->scale == GravityScale::brix;
    // Without its original gravity a refractometer's figure means nothing.
    if (point.by_refractometer && !of.ferment.pitch) return false;
    point.gravity = of.ferment.pitch ? wash_gravity(*body.gravity, of.ferment.pitch->gravity)
                                     : wort_gravity(*body.gravity);
  }
  auto& points = of.ferment.points;
  const auto place =
      std::upper_bound(points.begin(), points.end(), point.told.at,
                       [](Moment at, const FermentPoint& other) { return at < other.told.at; });
  points.insert(place, std::move(point));
  renew_wash(of);
  return true;
}

bool Folding::on(const Racked& body) {
  BatchState& of = batch();
  // A wash is nearly water: its volume is brought to 20 °C as that of gravity 1.
  const auto water = units::SpecificGravity::ratio(1.0);
  of.ferment.racked = RackedState{told(), wort_volume(body.clear, water), body.lees};
  renew_wash(of);
  return true;
}

void Folding::renew_wash(BatchState& of) {
  FermentState& ferment = of.ferment;
  if (!ferment.pitch) return;
  const auto last =
      std::find_if(ferment.points.rbegin(), ferment.points.rend(),
                   [](const FermentPoint& point) { return point.gravity.has_value(); });
  if (last == ferment.points.rend()) return;
  const units::Volume volume = ferment.racked ? ferment.racked->clear : ferment.pitch->volume;
  const units::SpecificGravity now = std::min(*last->gravity, ferment.pitch->gravity);
  const units::VolumeStrength strength = wash_strength(ferment.pitch->gravity, now);
  ferment.wash = WashState{now, strength, volume, volume * strength.fraction()};
}

}  // namespace lynearm::journal
