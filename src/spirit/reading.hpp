// What an instrument shows: a figure on its scale. Not yet a strength: the spirit may be warmer
// or colder than the temperature at which the scale is true.
#pragma once

#include <string>
#include <string_view>

#include "units/parse.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// The scales a spirit instrument carries. Figures stand in the scale's customary unit.
enum class Scale {
  percent_vol,           ///< % by volume, true at 20 °C (OIML R 44)
  percent_vol_15C,       ///< % by volume, true at 15 °C
  percent_vol_60F,       ///< % by volume, true at 60 °F
  percent_mass,          ///< % by mass, true at 20 °C (OIML R 44)
  us_proof,              ///< true at 60 °F (27 CFR 30.11)
  density,               ///< kg/m³, true at 20 °C
  specific_gravity,      ///< against water at 20 °C, true at 20 °C
  specific_gravity_60F,  ///< against water at 60 °F, true at 60 °F
};

/// A figure on a scale: {62.4, Scale::percent_vol}.
struct Reading {
  double figure = 0.0;
  Scale scale = Scale::percent_vol;

  friend bool operator==(const Reading&, const Reading&) = default;
};

/// Where a scale is true, unless the glass says otherwise.
[[nodiscard]] units::Temperature reference_of(Scale scale);

/// What a scale is called: "% by volume at 20 °C".
[[nodiscard]] std::string_view words(Scale scale);

/// The figure a mixture has on a scale, at the scale's reference.
[[nodiscard]] Reading reading_of(units::MassFraction ethanol, Scale scale);

/// "62.4 %vol", "62.4 %vol at 60 °F", "125.0 proof", "912.3 kg/m³", "0.9126 SG 20/20".
/// decimals   by default one; kg/m³ one, specific gravity four
[[nodiscard]] std::string print(const Reading& reading);
[[nodiscard]] std::string print(const Reading& reading, int decimals);

}  // namespace lynearm::spirit

namespace lynearm::units {

/// As print() writes it, and every strength, density ("0.9126 g/mL") and gravity ("0.9126 SG",
/// meant at 20 °C; "0.9126 SG 60/60"). Refuses what no spirit reads on the scale: outside 0 to
/// 100 %, 0 to 200 proof, 700 to 1100 kg/m³, or SG 0.7 to 1.1.
template <>
[[nodiscard]] Parsed<spirit::Reading> try_parse<spirit::Reading>(std::string_view text);

}  // namespace lynearm::units
