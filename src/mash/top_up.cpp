#include "mash/top_up.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/error.hpp"
#include "mash/limits.hpp"
#include "wort/gravity.hpp"

namespace lynearm::mash {
namespace {

double kg_per_L(units::Temperature t) {
  return wort::water_density(std::min(t, units::Temperature::celsius(100.0)))
      .grams_per_millilitre();
}

Contents with(const Contents& contents, units::HeatCapacity wall, const Waters& waters,
              double cold_kg, double hot_kg) {
  const std::array<Body, 3> bodies{
      {{heat_capacity(contents) + wall, contents.temperature},
       {units::HeatCapacity::joules_per_kelvin(cold_kg * water_J_per_kg_K), waters.cold},
       {units::HeatCapacity::joules_per_kelvin(hot_kg * water_J_per_kg_K), waters.hot}}};
  Contents mix = contents;
  mix.water += units::Mass::kilograms(cold_kg + hot_kg);
  mix.temperature = mixing_temperature(bodies);
  return mix;
}

TopUp answer(Reach reach, const Contents& contents, units::HeatCapacity wall,
             const Waters& waters, double cold_kg, double hot_kg) {
  TopUp result;
  result.reach = reach;
  result.cold = units::Volume::litres(cold_kg / kg_per_L(waters.cold));
  result.hot = units::Volume::litres(hot_kg / kg_per_L(waters.hot));
  result.contents = with(contents, wall, waters, cold_kg, hot_kg);
  result.temperature = result.contents.temperature;
  result.volume = volume(result.contents);
  return result;
}

}  // namespace

TopUp top_up(const Contents& contents, units::HeatCapacity wall, const Waters& waters,
             units::Volume wanted_volume, units::Temperature wanted_temperature) {
  within_liquid("waters.cold", waters.cold);
  within_liquid("waters.hot", waters.hot);
  within_liquid("top_up.temperature", wanted_temperature);
  within("top_up.volume", wanted_volume.litres(), 0.0, 1e6, "L");
  if ((waters.hot - waters.cold).kelvins() < 1.0) {
    throw base::InputError(
        "waters.hot", fmt::format("{:.1f} °C", waters.hot.celsius()),
        fmt::format("at least 1 °C above the cold water, {:.1f} °C", waters.cold.celsius()));
  }
  if (volume(contents) > wanted_volume) {
    return answer(Reach::already_fuller, contents, wall, waters, 0.0, 0.0);
  }
  Contents then = contents;
  then.temperature = wanted_temperature;
  const double all_kg =
      std::max(0.0, (wanted_volume - volume(then)).litres() * kg_per_L(wanted_temperature));
  const double too_warm_kgK = (heat_capacity(contents) + wall).joules_per_kelvin() *
                              (contents.temperature - wanted_temperature).kelvins() /
                              water_J_per_kg_K;
  const double hot_kg = (all_kg * (wanted_temperature - waters.cold).kelvins() - too_warm_kgK) /
                        (waters.hot - waters.cold).kelvins();
  // A rounding error beyond either end is that end.
  const double slack_kg = 1e-9 * (all_kg + 1.0);
  if (hot_kg >= -slack_kg && hot_kg <= all_kg + slack_kg) {
    const double hot = std::clamp(hot_kg, 0.0, all_kg);
    return answer(Reach::reached, contents, wall, waters, all_kg - hot, hot);
  }

  const bool too_hot = hot_kg < 0.0;
  double low = 0.0;
  double high = wanted_volume.litres();
  for (int i = 0; i < 60; ++i) {
    const double kg = 0.5 * (low + high);
    const Contents mix = with(contents, wall, waters, too_hot ? kg : 0.0, too_hot ? 0.0 : kg);
    (volume(mix) > wanted_volume ? high : low) = kg;
  }
  return answer(too_hot ? Reach::stays_too_hot : Reach::stays_too_cold, contents, wall, waters,
                too_hot ? low : 0.0, too_hot ? 0.0 : low);
}

}  // namespace lynearm::mash
