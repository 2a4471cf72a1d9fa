#include "mash/correction.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.hpp"
#include "mash/limits.hpp"
#include "wort/gravity.hpp"

namespace lynearm::mash {
namespace {

units::Temperature with_water(const Contents& mash, units::HeatCapacity wall, double water_kg,
                              units::Temperature water_temperature) {
  const std::array<Body, 2> bodies{
      {{heat_capacity(mash) + wall, mash.temperature},
       {units::HeatCapacity::joules_per_kelvin(water_kg * water_J_per_kg_K),
        water_temperature}}};
  return mixing_temperature(bodies);
}

/// Most water, kg, that fits: volumes at the temperature the mix then has.
double room_kg(const Contents& mash, units::HeatCapacity wall, units::Temperature poured,
               units::Volume brim, double wanted_kg) {
  const auto over_L = [&](double kg) {
    Contents mix = mash;
    mix.water += units::Mass::kilograms(kg);
    mix.temperature = with_water(mash, wall, kg, poured);
    return (volume(mix) - brim).litres();
  };
  if (over_L(0.0) >= 0.0) return 0.0;
  if (over_L(wanted_kg) <= 0.0) return wanted_kg;
  // Volume grows by a litre a kilogram, give or take a few per cent: bisection is ample.
  double low = 0.0;
  double high = wanted_kg;
  for (int i = 0; i < 60 && high - low > 1e-12 * wanted_kg; ++i) {
    const double middle = 0.5 * (low + high);
    (over_L(middle) > 0.0 ? high : low) = middle;
  }
  return low;
}

}  // namespace

Correction correct(const Contents& mash, units::HeatCapacity wall, units::Temperature target,
                   const Waters& waters, units::Volume brim,
                   units::TemperatureChange near_enough) {
  within("mash.target_temperature", target.celsius(), 30.0, 95.0, "°C");
  within_liquid("mash.temperature", mash.temperature);
  within_liquid("waters.hot", waters.hot);
  within_liquid("waters.cold", waters.cold);

  Correction result;
  result.reached = result.after_first = mash.temperature;
  const double off_K = (mash.temperature - target).kelvins();
  if (std::abs(off_K) <= near_enough.kelvins()) return result;

  const bool too_hot = off_K > 0.0;
  result.with = too_hot ? Mend::cold_water : Mend::hot_water;
  const units::Temperature poured = too_hot ? waters.cold : waters.hot;
  const double lever_K = (target - poured).kelvins();
  if (too_hot ? lever_K < 1.0 : lever_K > -1.0) {
    throw base::InputError(too_hot ? "waters.cold" : "waters.hot",
                           fmt::format("{:.1f} °C", poured.celsius()),
                           fmt::format("well {} the target of {:.1f} °C",
                                       too_hot ? "below" : "above", target.celsius()));
  }
  const double wanted_kg =
      (heat_capacity(mash) + wall).joules_per_kelvin() * off_K / (water_J_per_kg_K * lever_K);
  const double kg_per_L =
      wort::water_density(std::min(poured, units::Temperature::celsius(100.0)))
          .grams_per_millilitre();
  const double most_kg = room_kg(mash, wall, poured, brim, wanted_kg);
  result.wanted = units::Volume::litres(wanted_kg / kg_per_L);
  result.at_most = units::Volume::litres(most_kg / kg_per_L);
  result.room_is_short = most_kg < wanted_kg;
  const double first_kg = std::min(0.5 * wanted_kg, most_kg);
  result.first_half = units::Volume::litres(first_kg / kg_per_L);
  result.after_first = with_water(mash, wall, first_kg, poured);
  result.reached = with_water(mash, wall, most_kg, poured);
  return result;
}

}  // namespace lynearm::mash
