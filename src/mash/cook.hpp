// Cooking the raw grain: time and heat to the boil, what boils away, how far the starch is
// opened, and how full the pot gets.
//
// Heat-up is exact for a constant power and Newton's losses; the boil is at `boiling` all the
// time, with steam leaving at a given rate. Opening of the starch is limited by how deep heat
// and water reach into a particle, with a time constant of the grind (our estimate).
#pragma once

#include "mash/heat.hpp"
#include "units/quantity.hpp"

namespace lynearm::mash {

/// The pot the grain is cooked in.
struct CookPot {
  units::Volume brim;
  units::HeatCapacity wall;
  units::Power power;
  units::Share efficiency = units::Share::percent(85.0);  ///< of the power, into the pot
  units::HeatLoss loss;                                   ///< to the room
  units::Temperature ambient;
  units::Temperature boiling = units::Temperature::celsius(100.0);
};

/// How fine the grain is. Time constant of opening at the boil: 15 min cracked, 5 min as meal
/// (our estimate, so that cracked maize wants 30 to 60 min, which is common practice).
enum class Grind { cracked, meal };

struct CookSteps {
  units::Mass grain;
  units::Share moisture;
  units::Temperature grain_temperature;
  units::Volume water;  ///< measured at its own temperature
  units::Temperature water_temperature;
  units::Duration simmer;
  units::VolumeFlow boil_off;  ///< as cold water; zero under a lid
  Grind grind = Grind::cracked;
};

struct Cooked {
  Contents contents;          ///< at the boil, after what boiled away
  units::Volume boiled_away;  ///< as water at 20 °C
  units::Volume at_the_boil;  ///< volume when the boil begins: the fullest
  units::Volume headspace;    ///< brim less that; negative when it does not fit
  units::Duration time_to_boil;
  units::Energy heating;       ///< drawn from the source up to the boil
  units::Energy simmering;     ///< drawn from the source during the boil
  units::Share opened;         ///< share of the starch gelatinised
  units::Mass water_taken_up;  ///< bound by the swollen starch
  bool too_thick = false;      ///< the starch could bind more water than there is
};

/// Water a kg of gelatinised maize starch takes up, kg: our estimate, from a stiff porridge.
inline constexpr double swelling_kg_per_kg = 2.5;

/// throws     InputError when a figure is out of range, when the power does not reach the boil
///            ("heat.power"), or when more would boil away than was given ("cook.simmer")
[[nodiscard]] Cooked cook(const CookPot& pot, const CookSteps& steps);

/// Steam that leaves a pot at the boil with its whole power on, as cold water.
/// throws     InputError ("heat.power") when the power does not hold the boil
[[nodiscard]] units::VolumeFlow boil_off_rate(const CookPot& pot);

}  // namespace lynearm::mash
