#include "mash/cook.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.hpp"
#include "mash/cooling.hpp"
#include "mash/limits.hpp"
#include "wort/gravity.hpp"

namespace lynearm::mash {
namespace {

double kg_per_L_cold() { return wort::water_at_20C.grams_per_millilitre(); }

double loss_at_boil_W(const CookPot& pot) {
  return pot.loss.watts_per_kelvin() * (pot.boiling - pot.ambient).kelvins();
}

void check(const CookPot& pot) {
  within("pot.efficiency", pot.efficiency.percent(), 1.0, 100.0, "%");
  within("pot.boiling", pot.boiling.celsius(), 60.0, 100.0 + 1e-9, "°C");
  within("pot.power", pot.power.watts(), 0.0, 1e6, "W");
}

}  // namespace

Cooked cook(const CookPot& pot, const CookSteps& steps) {
  check(pot);
  within("cook.simmer", steps.simmer.hours(), 0.0, 24.0, "h");
  within("cook.boil_off", steps.boil_off.litres_per_hour(), 0.0, 1e4, "L/h");
  within("cook.grain", steps.grain.kilograms(), 0.0, 1e4, "kg");
  if (!(steps.water.litres() > 0.0)) {
    throw base::InputError("cook.water", fmt::format("{:g} L", steps.water.litres()),
                           "above 0 L");
  }
  Cooked cooked;
  Contents contents = water(steps.water, steps.water_temperature);
  contents.grain = steps.grain;
  contents.moisture = steps.moisture;

  const units::HeatCapacity grain = heat_capacity_of_grain(steps.grain, steps.moisture);
  const units::HeatCapacity whole = heat_capacity(contents) + pot.wall;
  const std::array<Body, 3> bodies{{{whole - grain - pot.wall, steps.water_temperature},
                                    {grain, steps.grain_temperature},
                                    {pot.wall, pot.ambient}}};
  const units::Temperature start =
      mixing_temperature(bodies, hydration_heat(steps.grain, steps.moisture));

  const units::Power into_pot = pot.power * pot.efficiency.fraction();
  cooked.time_to_boil =
      time_to_heat(start, pot.boiling, whole, into_pot, pot.loss, pot.ambient);
  cooked.heating = units::Energy::joules(pot.power.watts() * cooked.time_to_boil.seconds());
  contents.temperature = pot.boiling;
  cooked.at_the_boil = volume(contents);
  cooked.headspace = pot.brim - cooked.at_the_boil;

  cooked.boiled_away =
      units::Volume::litres(steps.boil_off.litres_per_second() * steps.simmer.seconds());
  const units::Mass steam =
      units::Mass::kilograms(cooked.boiled_away.litres() * kg_per_L_cold());
  if (!(steam < contents.water)) {
    throw base::InputError("cook.simmer", fmt::format("{:g} min", steps.simmer.minutes()),
                           "a time in which less boils away than was given");
  }
  contents.water -= steam;
  cooked.contents = contents;
  cooked.simmering = units::Energy::joules((steam.kilograms() * evaporation_J_per_kg +
                                            loss_at_boil_W(pot) * steps.simmer.seconds()) /
                                           pot.efficiency.fraction());

  const double time_constant_min = steps.grind == Grind::cracked ? 15.0 : 5.0;
  cooked.opened =
      units::Share::fraction(1.0 - std::exp(-steps.simmer.minutes() / time_constant_min));
  // Some 72 % of a dry maize kernel is starch; other raw grains hold less.
  const double starch_kg = 0.72 * steps.grain.kilograms() * (1.0 - steps.moisture.fraction());
  const double could_bind_kg = swelling_kg_per_kg * starch_kg * cooked.opened.fraction();
  cooked.too_thick = could_bind_kg > contents.all_water().kilograms();
  cooked.water_taken_up = std::min(units::Mass::kilograms(could_bind_kg), contents.all_water());
  return cooked;
}

units::VolumeFlow boil_off_rate(const CookPot& pot) {
  check(pot);
  const double to_spare_W = pot.power.watts() * pot.efficiency.fraction() - loss_at_boil_W(pot);
  if (!(to_spare_W > 0.0)) {
    throw base::InputError("heat.power", fmt::format("{:.0f} W", pot.power.watts()),
                           "enough to hold the boil against the losses");
  }
  return units::VolumeFlow::litres_per_second(to_spare_W / evaporation_J_per_kg /
                                              kg_per_L_cold());
}

}  // namespace lynearm::mash
