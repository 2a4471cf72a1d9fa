// What is in a vessel while it evaporates by one guess of how fast, and is drawn from, topped
// up and gauged meanwhile. Evaporation follows the vessel: through the staves of a cask, or
// past the closure of a glass. Leaves out that a half-empty cask loses through less of its
// wood.
#pragma once

#include <vector>

#include "spirit/lot.hpp"
#include "station/laid_wood.hpp"
#include "station/taken_up.hpp"
#include "wood/evaporation.hpp"

namespace lynearm::station {

class Vessel {
 public:
  struct Left {
    units::Volume gone;    ///< to the air since it was filled, at 20 °C
    units::Volume volume;  ///< in the vessel, at 20 °C
    units::VolumeStrength strength;
  };

  /// wood       lives as long as this
  /// factor     evaporation over the usual
  /// throws     InputError when the wood drinks more than there is, or as wood::rest()
  Vessel(const LaidWood& wood, const wood::Cellar& cellar, units::Share factor,
         const spirit::Lot& filled, const std::vector<Handling>& handlings);

  /// Since it was filled.
  [[nodiscard]] Left at(units::Duration time) const;

 private:
  // From one handling to the next.
  struct Stretch {
    units::Duration from;
    spirit::Lot lot;
    units::Volume gone;
  };
  [[nodiscard]] Stretch rested(const Stretch& stretch, units::Duration at) const;
  [[nodiscard]] spirit::Lot rest(const spirit::Lot& lot, units::Duration time) const;
  void handle(const Handling& one);

  const LaidWood& wood_;
  wood::Cellar cellar_;
  units::Share factor_;
  std::vector<Stretch> stretches_;
};

}  // namespace lynearm::station
