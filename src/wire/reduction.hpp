// A reduction as JSON: one object, one line, keys that name their unit. The first keys are
// fixed for good; more may follow them. Volumes and strengths are at 20 °C unless the key says
// otherwise. Holds no physics: figures are those of spirit/.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "spirit/check_reading.hpp"
#include "spirit/measured_reduction.hpp"
#include "spirit/oak_tea.hpp"
#include "spirit/reduction_steps.hpp"
#include "units/quantity.hpp"

namespace lynearm::wire {

/// Everything that was asked about one reduction.
struct ReductionReport {
  spirit::Lot before;
  spirit::MeasuredReduction measured;
  spirit::MixingTemperatures at;
  std::optional<units::Mass> scale_shows;             ///< at the end, with the vessel on it
  std::vector<spirit::ReductionStep> steps;           ///< empty: in one
  std::optional<spirit::Lot> weaker;                  ///< spirit to add besides the water
  std::optional<spirit::ObscuredReduction> obscured;  ///< where something is dissolved
  units::VolumeStrength obscured_before;  ///< true strength before; where `obscured`
};

/// water_mass_kg, water_volume_L_20C, final_volume_L_20C, contraction_L; then the spirit before
/// and after, the volumes at their own temperatures, and what else was asked.
[[nodiscard]] std::string json(const ReductionReport& report);

/// What mends a reduction that came out otherwise: remedy, water_mass_kg, spirit_volume_L_20C,
/// final_volume_L_20C, final_strength_percent_vol_20C; then the likely mistakes.
[[nodiscard]] std::string json(const spirit::Correction& correction,
                               const spirit::Mistake& mistake);

}  // namespace lynearm::wire
