// Sugar, honey or molasses dissolved in water and boiled apart.
//
// Masses are exact. The rise of the boiling point by the sugar (some 1 K at half sugar) is
// ignored. Inversion by acid and heat splits sucrose for the yeast's ease; the mass it takes up
// (1.0526 kg of hexose from a kg of sucrose) is counted by fermentation, which splits all
// sucrose anyway, and is not counted here.
#pragma once

#include "mash/heat.hpp"
#include "mash/ingredient.hpp"
#include "units/quantity.hpp"
#include "wort/gravity.hpp"

namespace lynearm::mash {

struct SugarBoilSteps {
  units::Mass mass;  ///< of the sugar as it comes
  units::Temperature sugar_temperature;
  units::Volume water;  ///< measured at its own temperature
  units::Temperature water_temperature;
  units::Duration time;        ///< of the boil
  units::VolumeFlow boil_off;  ///< as cold water
  units::Temperature boiling = units::Temperature::celsius(100.0);
};

struct SugarSolution {
  wort::Wort wort;            ///< the water it holds, and its extract as given
  Contents contents;          ///< the same as a body, at the boil
  units::Volume hot;          ///< at the boil, after what boiled away
  units::Volume boiled_away;  ///< as water at 20 °C
  units::Plato extract;
  units::Energy heat_to_boil;  ///< into the solution, without pot and losses
};

/// throws     InputError when `sugar` is a grain ("sugar_boil.ingredient"), a figure is out of
///            range, or all the water would boil away ("sugar_boil.time")
[[nodiscard]] SugarSolution sugar_boil(const Ingredient& sugar, const SugarBoilSteps& steps);

}  // namespace lynearm::mash
