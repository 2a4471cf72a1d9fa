// Which temperature to stir the dry grist in at, so that the mix settles at the rest.
//
// An exact heat balance of water (or cooked mash), dry grist with its hydration heat, the
// vessel's wall and the heat that escapes while stirring. Leaves out that the crust of a dry
// lump takes minutes to even out: wait and stir before reading.
#pragma once

#include "mash/heat.hpp"
#include "units/quantity.hpp"

namespace lynearm::mash {

/// The dry grist that goes in.
struct Grist {
  units::Mass mass;
  units::Share moisture;
  units::Temperature temperature;
};

/// The vessel it goes into.
struct MashVessel {
  units::HeatCapacity wall;
  units::Temperature wall_temperature;  ///< used only when the vessel is cold
  bool warm = true;    ///< it has stood with the liquor and follows its temperature
  units::Energy lost;  ///< while stirring in, lid off; see open_surface_loss()
};

/// Where the mix settles when `grist` is stirred into `liquor` (water or cooked mash, at its
/// temperature).
[[nodiscard]] Contents dough_in(const Contents& liquor, const Grist& grist,
                                const MashVessel& vessel);

/// The temperature `liquor` must have for the mix to settle at `rest`. Its own temperature is
/// not used. For a plain infusion this is the strike temperature of the water.
///
/// rest       30 to 80 °C
/// throws     InputError ("mash.rest_temperature") outside it; ("mash.water") when the liquor
///            would have to be hotter than 100 °C: more liquor, or warmer grist
/// accuracy   exact balance; put back into dough_in() it settles at `rest` to 1e-9 K
[[nodiscard]] units::Temperature dough_in_temperature(const Contents& liquor,
                                                      const Grist& grist,
                                                      const MashVessel& vessel,
                                                      units::Temperature rest);

}  // namespace lynearm::mash
