#include "mash/sugar_boil.hpp"

#include <fmt/format.h>

#include <array>

#include "base/error.hpp"
#include "mash/limits.hpp"

namespace lynearm::mash {

SugarSolution sugar_boil(const Ingredient& sugar, const SugarBoilSteps& steps) {
  if (is_grain(sugar)) {
    throw base::InputError("sugar_boil.ingredient", sugar.name, "a sugar, honey or molasses");
  }
  within("sugar_boil.mass", steps.mass.kilograms(), 1e-6, 1e4, "kg");
  within("sugar_boil.water", steps.water.litres(), 1e-6, 1e6, "L");
  within("sugar_boil.time", steps.time.hours(), 0.0, 24.0, "h");
  within("sugar_boil.boil_off", steps.boil_off.litres_per_hour(), 0.0, 1e4, "L/h");
  within_liquid("sugar_boil.boiling", steps.boiling);
  within("sugar_boil.sugar_temperature", steps.sugar_temperature.celsius(), -20.0, 60.0, "°C");

  SugarSolution solution;
  Contents contents = water(steps.water, steps.water_temperature);
  contents.sugar = steps.mass * sugar.extract.value.fraction();
  const units::Mass brought = steps.mass - contents.sugar;  // honey's and molasses' own water
  contents.water += brought;

  const std::array<Body, 2> bodies{
      {{units::HeatCapacity::joules_per_kelvin((contents.water - brought).kilograms() *
                                               water_J_per_kg_K),
        steps.water_temperature},
       {units::HeatCapacity::joules_per_kelvin(brought.kilograms() * water_J_per_kg_K +
                                               contents.sugar.kilograms() * sugar_J_per_kg_K),
        steps.sugar_temperature}}};
  const units::Temperature mixed = mixing_temperature(bodies);
  solution.heat_to_boil = units::Energy::joules(heat_capacity(contents).joules_per_kelvin() *
                                                (steps.boiling - mixed).kelvins());

  solution.boiled_away =
      units::Volume::litres(steps.boil_off.litres_per_second() * steps.time.seconds());
  const units::Mass steam = units::Mass::kilograms(solution.boiled_away.litres() *
                                                   wort::water_at_20C.grams_per_millilitre());
  if (!(steam < contents.water)) {
    throw base::InputError("sugar_boil.time", fmt::format("{:g} min", steps.time.minutes()),
                           "a time in which water is left");
  }
  contents.water -= steam;
  contents.temperature = steps.boiling;
  solution.contents = contents;
  solution.hot = volume(contents);
  solution.wort = {contents.water, contents.sugar};
  solution.extract = wort::plato(solution.wort);
  return solution;
}

}  // namespace lynearm::mash
