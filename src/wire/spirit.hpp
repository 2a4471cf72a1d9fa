// Gauging and blending as JSON: one object, one line, keys that name their unit. The
// first keys of each object are fixed for good; more may follow them.
//
// Volumes and strengths are at 20 °C unless the key says otherwise; `us_proof` is twice the %
// by volume at 60 °F. Holds no physics: figures are asked of spirit/.
#pragma once

#include <string>
#include <vector>

#include "spirit/gauging.hpp"
#include "spirit/lot.hpp"
#include "spirit/reduction.hpp"
#include "spirit/target_blend.hpp"
#include "units/quantity.hpp"

namespace lynearm::wire {

/// strength_percent_vol_20C, strength_percent_mass, density_kg_m3_20C, us_proof; then the
/// strength on the other scales, what was observed, the lot where an amount was read, the
/// uncertainty (expanded, with its factor, and standard contributions) and notes.
[[nodiscard]] std::string json(const spirit::GaugingInput& input,
                               const spirit::Gauging& gauging);

/// volume_L_20C, strength_percent_vol_20C, contraction_L; then mass, alcohol and the parts.
[[nodiscard]] std::string json(const std::vector<spirit::Lot>& parts,
                               const spirit::Blend& blend);

/// The same of a blend reached: volume_L_20C, strength_percent_vol_20C, contraction_L; then of
/// each part what is used of it, the water, and what is left in opened lots.
[[nodiscard]] std::string json(const std::vector<spirit::Lot>& lots,
                               const spirit::TargetBlend& reached);

}  // namespace lynearm::wire
