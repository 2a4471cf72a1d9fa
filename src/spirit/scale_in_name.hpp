// The scales of a spirit instrument as a head or a key names them: "reading_percent_vol",
// "spout_us_proof". One list for every table and log that is read.
#pragma once

#include <string_view>

#include "spirit/reading.hpp"

namespace lynearm::spirit {

struct ScaleInName {
  std::string_view word;
  Scale scale = Scale::percent_vol;
  double figure_per_number = 1.0;  ///< 1000 where the word says g/mL and the scale is kg/m³
};

/// The scale behind a name: "percent_vol" (at 20 °C), "percent_vol_15C", "percent_vol_60F",
/// "percent_mass", "proof", "us_proof", "density_kg_m3", "density_g_mL", "specific_gravity"
/// (20/20 °C), "specific_gravity_60F" and fuller forms. Upper and lower case are one. nullptr
/// for any other word.
[[nodiscard]] const ScaleInName* scale_in_name(std::string_view word);

/// Whether its figures are strengths (by volume, by mass or proof) rather than densities.
[[nodiscard]] bool is_of_strength(Scale scale);

}  // namespace lynearm::spirit
