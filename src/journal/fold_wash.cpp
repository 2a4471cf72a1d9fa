// Mash and ferment: temperatures, waters, worts, gravities, and what the wash holds.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "ferment/follow.hpp"
#include "journal/fed.hpp"
#include "journal/folding.hpp"
#include "journal/meaning.hpp"
#include "journal/pure_volume.hpp"

namespace lynearm::journal {
namespace {

/// A wash read so long before its racking may have fermented on; read so long apart, alike
/// gravities say that it had come to stand. Our choice.
constexpr units::Duration a_day = units::Duration::days(1.0);
constexpr units::Duration near_a_day = units::Duration::days(0.9);  // read at breakfast

/// A reading that stands so little before the pitch is of the wash as it was pitched. Our
/// choice.
constexpr units::Duration pitched_about = units::Duration::minutes(10.0);

/// Whether it had come to stand by its last gravity.
bool had_stood(const FermentState& ferment, const Told& last, units::SpecificGravity gravity) {
  return std::any_of(
      ferment.points.begin(), ferment.points.end(), [&](const FermentPoint& before) {
        return before.gravity && since(last.at, before.told.at) >= near_a_day &&
               std::abs(before.gravity->ratio() - gravity.ratio()) < ferment::hydrometer_sd;
      });
}

/// How long it stood unread before it was racked, where it may have gone on.
std::optional<units::Duration> unread_before_racking(const FermentState& ferment,
                                                     const Told& last, bool stood) {
  if (!ferment.racked || stood) return std::nullopt;
  const units::Duration unread = since(ferment.racked->told.at, last.at);
  if (unread <= a_day) return std::nullopt;
  return unread;
}

}  // namespace

units::Mass MashState::extract() const {
  units::Mass sum;
  for (const WortState& wort : worts) sum += wort.extract;
  return sum;
}

Waits Folding::on(const MashTemperature& body) {
  batch().mash.temperatures.push_back({told(), body.temperature});
  return taken;
}

Waits Folding::on(const MashWater& body) {
  batch().mash.waters.push_back({told(), body.volume, body.temperature});
  return taken;
}

Waits Folding::on(const MashChecked& body) {
  MashCheckState check{told(), body.iodine, std::nullopt};
  if (body.gravity) check.gravity = wort_gravity(*body.gravity);
  batch().mash.checks.push_back(std::move(check));
  return taken;
}

Waits Folding::on(const WortDrawn& body) {
  const units::SpecificGravity gravity = wort_gravity(body.gravity);
  const units::Volume volume = wort_volume(body.volume, gravity);
  batch().mash.worts.push_back(
      {told(), body.from, volume, gravity, extract_in(volume, gravity)});
  return taken;
}

Waits Folding::on(const Pitched& body) {
  BatchState& of = batch();
  if (of.ferment.pitch) {
    throw CannotBe{
        "The yeast had gone in already: a batch is pitched once, and the first telling counts. "
        "If that was told wrongly, correct it."};
  }
  const units::SpecificGravity gravity = wort_gravity(body.gravity);
  const units::Volume volume = wort_volume(body.volume, gravity);
  of.ferment.pitch =
      PitchState{told(),     volume,    gravity,       extract_in(volume, gravity),
                 body.yeast, body.mass, body.volume.at};
  told_now_.push_back(Need{of.id, Need::What::pitch});
  renew_wash(of);
  return taken;
}

Waits Folding::on(const FermentRead& body) {
  BatchState& of = batch();
  FermentPoint point{told(), std::nullopt, false, body.temperature};
  if (body.gravity) {
    const auto& pitch = of.ferment.pitch;
    point.by_refractometer = body.gravity->scale == GravityScale::brix;
    // Without its original gravity a refractometer's figure means nothing.
    if (point.by_refractometer && !pitch) return Need{of.id, Need::What::pitch};
    const bool of_wort = !pitch || since(pitch->told.at, point.told.at) > pitched_about;
    point.gravity =
        of_wort ? wort_gravity(*body.gravity) : wash_gravity(*body.gravity, pitch->gravity);
  }
  const bool renews = point.gravity && !above_the_pitch(of, point);
  if (renews) {
    const auto [last, first] =
        last_gravities_.try_emplace(of.id, GravityAt{point.told, *point.gravity});
    if (!first && last->second.told.at <= point.told.at) {
      last->second = {point.told, *point.gravity};
    }
  }
  of.ferment.points.push_back(std::move(point));
  if (renews) renew_wash(of);
  return taken;
}

Waits Folding::on(const Racked& body) {
  BatchState& of = batch();
  of.ferment.racked = RackedState{told(), watery_volume(body.clear), body.lees};
  renew_wash(of);
  return taken;
}

void Folding::renew_wash(BatchState& of) {
  FermentState& ferment = of.ferment;
  const auto last = last_gravities_.find(of.id);
  if (!ferment.pitch || last == last_gravities_.end()) return;
  // Before the yeast went in it was read of the wort.
  if (since(ferment.pitch->told.at, last->second.told.at) > pitched_about) return;
  const units::SpecificGravity original = ferment.pitch->gravity;
  const units::SpecificGravity now = std::min(last->second.gravity, original);
  const auto strength = or_puzzle([&] { return wash_strength(original, now); });
  if (!strength) return;
  const units::Volume volume = ferment.racked ? ferment.racked->clear : ferment.pitch->volume;
  const bool stood = had_stood(ferment, last->second.told, now);
  ferment.wash = WashState{last->second.told,
                           now,
                           *strength,
                           volume,
                           volume * strength->fraction(),
                           unread_before_racking(ferment, last->second.told, stood),
                           stood};
}

}  // namespace lynearm::journal
