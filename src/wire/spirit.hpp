// Gauging, reducing and blending as JSON: one object, one line, keys that name their unit. The
// first keys of each object are fixed for good; more may follow them.
//
// Volumes and strengths are at 20 °C unless the key says otherwise; `us_proof` is twice the %
// by volume at 60 °F. Holds no physics: figures are asked of spirit/.
#pragma once

#include <string>
#include <vector>

#include "spirit/lot.hpp"
#include "spirit/reading.hpp"
#include "spirit/reduction.hpp"
#include "units/quantity.hpp"

namespace lynearm::wire {

/// What a hydrometer showed, and the mixture it floats in.
struct Gauging {
  spirit::Reading reading;
  units::Temperature at;
  units::MassFraction ethanol;
};

/// strength_percent_vol_20C, strength_percent_mass, density_kg_m3_20C, us_proof; then the
/// density at the spirit's temperature and the reading.
[[nodiscard]] std::string json(const Gauging& gauging);

/// water_mass_kg, water_volume_L_20C, final_volume_L_20C, contraction_L; then the spirit before
/// and after.
[[nodiscard]] std::string json(const spirit::Lot& before, const spirit::Reduction& reduction);

/// volume_L_20C, strength_percent_vol_20C, contraction_L; then mass, alcohol and the parts.
[[nodiscard]] std::string json(const std::vector<spirit::Lot>& parts,
                               const spirit::Blend& blend);

}  // namespace lynearm::wire
