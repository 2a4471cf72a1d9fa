// The uncertain constants of one member of the ensemble: all at their medians for the plan
// itself, or each drawn from its spread.
#pragma once

#include <optional>

#include "numeric/ensemble.hpp"
#include "plan/kit.hpp"
#include "units/quantity.hpp"

namespace lynearm::plan {

struct Drawn {
  units::Share conversion;
  units::Share drained_moisture;
  units::Share squeezed_moisture;
  units::Share sparge_mixing;
  units::Share fermentable_factor;
  units::Share alcohol_yield;
  units::Share ferment_vigour;
  units::Share lees;
  units::Share still_loss;
  units::Share transfer_loss;
  units::Share heat_loss_factor;
  units::Share evaporation_factor;
  units::Share head_reflux_strip;
  units::Share head_reflux_spirit;
  std::optional<units::HeatLoss> head_loss;    ///< when the kit's head works by it
  units::TemperatureChange thermometer_error;  ///< true less shown, for borders by temperature
  units::VolumeStrength alcoholmeter_error;    ///< true less shown, for borders by strength
  double extract_place = 0.0;                  ///< where lots lie in their ingredient's range:
                                               ///< -1 at its low end, 0 at its value, 1 high
};

/// Every constant at its median.
[[nodiscard]] Drawn medians(const Kit& kit);

/// Every constant drawn from its spread: normal, kept within what is physically possible (a
/// share within 0 to 1, a yield at most the theory). The order of drawing is fixed, so a
/// member's figures depend on its seed alone.
[[nodiscard]] Drawn draw(const Kit& kit, numeric::Draw& stream);

}  // namespace lynearm::plan
