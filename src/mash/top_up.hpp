// Cold and hot water that bring a vessel to a volume and a temperature at once.
//
// Two unknown masses, two exact equations: the volume at the target temperature, and the heat
// balance with the vessel's wall. Outside reach the answer is the right volume with the one
// water that helps most, and the temperature that gives.
#pragma once

#include "mash/correction.hpp"
#include "mash/heat.hpp"
#include "units/quantity.hpp"

namespace lynearm::mash {

enum class Reach {
  reached,
  already_fuller,  ///< it holds more than the wanted volume: nothing is added
  stays_too_cold,  ///< even hot water alone leaves it colder
  stays_too_hot,   ///< even cold water alone leaves it hotter
};

struct TopUp {
  Reach reach = Reach::reached;
  units::Volume cold;              ///< to add, measured at its own temperature
  units::Volume hot;               ///< to add, measured at its own temperature
  units::Temperature temperature;  ///< then
  units::Volume volume;            ///< then, at that temperature
  Contents contents;               ///< then
};

/// contents   what stands in the vessel, at its temperature; a wort is water and sugar
/// wall       of the vessel, at the temperature of the contents
/// throws     InputError ("waters.hot") unless hot is at least 1 K above cold;
///            ("top_up.temperature") outside 0 to 100 °C
/// accuracy   exact: with Reach::reached, volume and temperature are met to 1e-9
[[nodiscard]] TopUp top_up(const Contents& contents, units::HeatCapacity wall,
                           const Waters& waters, units::Volume wanted_volume,
                           units::Temperature wanted_temperature);

}  // namespace lynearm::mash
