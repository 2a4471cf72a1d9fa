#include "journal/pot_left.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"
#include "vapour/equilibrium.hpp"

namespace lynearm::journal {
namespace {

constexpr double weaker = 0.88;    // than the liquid in equilibrium with the spout
constexpr double weaker_sd = 0.1;  // the head unknown
constexpr double shown_sd = 0.03;  // 0.3 %vol of some 10 %vol at the spout
constexpr double later_sd = 0.5;   // of what came over after the last reading
// A reading before half of what the pot then held came over tells little of the end; nor does
// one of an unknown volume, unless it is as young as this.
constexpr double most_later = 0.5;
constexpr units::Duration just_now = units::Duration::minutes(15.0);

struct LastShown {
  units::Duration at;
  units::VolumeStrength strength;
  std::optional<units::Volume> collected;
};

std::optional<LastShown> last_shown(const RunState& run) {
  for (auto point = run.readings.rbegin(); point != run.readings.rend(); ++point) {
    const still::Reading& read = point->reading;
    if (!read.spout) continue;
    const auto at = read.spout_temperature.value_or(units::Temperature::celsius(20.0));
    try {
      return LastShown{read.at,
                       spirit::volume_strength(spirit::true_mass_fraction(*read.spout, at)),
                       read.collected};
    } catch (const base::InputError&) {
      // A figure that no spirit shows tells nothing; the one before it may.
    }
  }
  return std::nullopt;
}

std::optional<units::Volume> volume_left(const RunState& run) {
  if (run.left) return run.left;
  if (!run.collected_read) return std::nullopt;
  return std::max(run.charge_volume - run.collected_read->volume, units::Volume{});
}

}  // namespace

std::optional<PureVolume> pot_left(const RunState& run) {
  if (!run.ended) return std::nullopt;
  const std::optional<LastShown> shown = last_shown(run);
  const std::optional<units::Volume> left = volume_left(run);
  if (!shown || !left) return std::nullopt;
  const auto vapour = spirit::mole_fraction(spirit::mass_fraction(shown->strength));
  const auto pot = vapour::dew_point(vapour, units::Pressure::atmospheres(1.0)).liquid;
  const double strength =
      weaker * spirit::volume_strength(spirit::mass_fraction(pot)).fraction();

  units::Volume later;
  if (shown->collected && run.collected_read) {
    later = std::max(run.collected_read->volume - *shown->collected, units::Volume{});
  } else if (since(run.ended->at, run.told.at) - shown->at > just_now) {
    return std::nullopt;
  }
  const double held_L = strength * (*left + later).litres();
  const double later_L = shown->strength.fraction() * later.litres();
  if (later_L > most_later * held_L) return std::nullopt;
  return PureVolume{units::Volume::litres(held_L - later_L),
                    units::Volume::litres(std::hypot(std::hypot(weaker_sd, shown_sd) * held_L,
                                                     later_sd * later_L))};
}

}  // namespace lynearm::journal
