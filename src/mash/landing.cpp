#include "mash/landing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/error.hpp"
#include "mash/limits.hpp"

namespace lynearm::mash {

Landed land(const Contents& cooked, const Pour& pour) {
  within("pour.left_behind", pour.left_behind.percent(), 0.0, 50.0, "%");
  within("pour.taking", pour.taking.minutes(), 0.0, 120.0, "min");
  within_liquid("cooked.temperature", cooked.temperature);

  Landed landed;
  landed.left_behind = cooked.mass() * pour.left_behind.fraction();
  Contents moved = cooked;
  const double kept = 1.0 - pour.left_behind.fraction();
  moved.water = cooked.water * kept;
  moved.grain = cooked.grain * kept;
  moved.sugar = cooked.sugar * kept;

  // The steam falls off as the mass cools, so the loss is taken in small strides of time.
  constexpr int strides = 20;
  const double stride_s = pour.taking.seconds() / strides;
  for (int i = 0; i < strides && stride_s > 0.0; ++i) {
    const units::Temperature t = moved.temperature;
    if (t < units::Temperature::celsius(40.0)) {
      throw base::InputError("pour.taking", fmt::format("{:g} min", pour.taking.minutes()),
                             "a time in which the cooked grain stays above 40 °C");
    }
    const double steam_J = open_surface_loss(pour.steaming, t).watts() * stride_s;
    const double wall_J =
        pour.other_loss.watts_per_kelvin() * (t - pour.ambient).kelvins() * stride_s;
    // Nine tenths of what an open surface loses goes as steam, the rest by contact and rays.
    const units::Mass steam = units::Mass::kilograms(0.9 * steam_J / evaporation_J_per_kg);
    landed.steamed_away += steam;
    landed.lost += units::Energy::joules(steam_J + wall_J);
    moved.temperature = t - units::TemperatureChange::kelvins(
                                (steam_J + wall_J) / heat_capacity(moved).joules_per_kelvin());
    moved.water -= steam;
  }

  landed.contents =
      pour.in_vessel.mass().kilograms() > 0.0 ? together(moved, pour.in_vessel) : moved;
  const std::array<Body, 2> bodies{
      {{heat_capacity(landed.contents), landed.contents.temperature},
       {pour.vessel_wall, pour.vessel_temperature}}};
  landed.contents.temperature = mixing_temperature(bodies);
  landed.volume = volume(landed.contents);
  return landed;
}

}  // namespace lynearm::mash
