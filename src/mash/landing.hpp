// Where the cooked grain lands when it is moved to the mash vessel: temperature and volume.
//
// The balance of the cooked mass, the vessel's wall and whatever water stands in it, less the
// steam that leaves while it is poured or ladled. That steam (open_surface_loss()) is known to
// its order only; a house's own reading is better than this forecast.
#pragma once

#include "mash/heat.hpp"
#include "units/quantity.hpp"

namespace lynearm::mash {

struct Pour {
  units::HeatCapacity vessel_wall;
  units::Temperature vessel_temperature;  ///< ambient, or warmer when rinsed with hot water
  Contents in_vessel;                     ///< water (or mash) already in it; may be empty
  units::Share left_behind;               ///< of the cooked mass, sticking to the pot
  units::Duration taking;                 ///< from the flame to the lid of the mash vessel
  units::Area steaming;                   ///< surface open meanwhile; see open_surface()
  units::HeatLoss other_loss;             ///< of the walls meanwhile, to `ambient`
  units::Temperature ambient;
};

struct Landed {
  Contents contents;  ///< with its temperature
  units::Volume volume;
  units::Mass left_behind;
  units::Mass steamed_away;
  units::Energy lost;  ///< to the air while moving
};

/// throws     InputError when a figure is out of range ("pour.left_behind" 0 to 50 %,
///            "pour.taking" 0 to 2 h) or the loss would cool it below 40 °C ("pour.taking")
[[nodiscard]] Landed land(const Contents& cooked, const Pour& pour);

}  // namespace lynearm::mash
