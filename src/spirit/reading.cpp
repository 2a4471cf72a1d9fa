#include "spirit/reading.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"
#include "units/print.hpp"

namespace lynearm::spirit {
namespace {

struct About {
  Scale scale;
  units::Temperature reference;
  std::string_view words;
  std::string_view unit;  ///< as it is printed behind the figure
  int decimals;
};

constexpr units::Temperature at_15C = units::Temperature::celsius(15.0);
constexpr std::array<About, 8> scales{{
    {Scale::percent_vol, reference_20C, "% by volume at 20 °C", "%vol", 1},
    {Scale::percent_vol_15C, at_15C, "% by volume at 15 °C", "%vol at 15 °C", 1},
    {Scale::percent_vol_60F, reference_60F, "% by volume at 60 °F", "%vol at 60 °F", 1},
    {Scale::percent_mass, reference_20C, "% by mass", "%mass", 1},
    {Scale::us_proof, reference_60F, "US proof", "proof", 1},
    {Scale::density, reference_20C, "density at 20 °C", "kg/m³", 1},
    {Scale::specific_gravity, reference_20C, "specific gravity 20/20 °C", "SG 20/20", 4},
    {Scale::specific_gravity_60F, reference_60F, "specific gravity 60/60 °F", "SG 60/60", 4},
}};

const About& about(Scale scale) {
  for (const About& each : scales) {
    if (each.scale == scale) return each;
  }
  throw base::BrokenInvariant("a reading is on a scale we know");
}

}  // namespace

units::Temperature reference_of(Scale scale) { return about(scale).reference; }

std::string_view words(Scale scale) { return about(scale).words; }

Reading reading_of(units::MassFraction ethanol, Scale scale) {
  switch (scale) {
    case Scale::percent_vol:
      return {volume_strength(ethanol).percent(), scale};
    case Scale::percent_vol_15C:
      return {volume_strength_15C(ethanol).percent(), scale};
    case Scale::percent_vol_60F:
      return {volume_strength_60F(ethanol).percent(), scale};
    case Scale::percent_mass:
      return {ethanol.percent(), scale};
    case Scale::us_proof:
      return {proof(ethanol).degrees(), scale};
    case Scale::density:
      return {density(ethanol, reference_20C).kilograms_per_cubic_metre(), scale};
    case Scale::specific_gravity:
      return {specific_gravity(ethanol).ratio(), scale};
    case Scale::specific_gravity_60F:
      return {specific_gravity_60F(ethanol).ratio(), scale};
  }
  throw base::BrokenInvariant("a reading is on a scale we know");
}

std::string print(const Reading& reading) {
  return print(reading, about(reading.scale).decimals);
}

std::string print(const Reading& reading, int decimals) {
  // A refusal shows what was entered, whatever it was.
  const std::string figure = std::isfinite(reading.figure)
                                 ? units::fixed(reading.figure, decimals)
                                 : fmt::format("{}", reading.figure);
  return fmt::format("{} {}", figure, about(reading.scale).unit);
}

}  // namespace lynearm::spirit

namespace lynearm::units {
namespace {

using spirit::Scale;

constexpr std::string_view reading_phrase =
    R"(a reading such as "62.4 %vol", "125 proof", "54.5 %mass", )"
    R"("0.9126 g/mL" or "0.9126 SG")";

spirit::Scale scale_of(StrengthScale scale) {
  switch (scale) {
    case StrengthScale::percent_by_volume:
      return Scale::percent_vol;
    case StrengthScale::percent_by_volume_15C:
      return Scale::percent_vol_15C;
    case StrengthScale::percent_by_volume_60F:
      return Scale::percent_vol_60F;
    case StrengthScale::percent_by_mass:
      return Scale::percent_mass;
    case StrengthScale::us_proof:
      return Scale::us_proof;
  }
  throw base::BrokenInvariant("a strength is stated on a scale we know");
}

// "0.9126 SG 60/60": the gravity without its two temperatures, and the scale they tell.
std::optional<Scale> gravity_scale(std::string_view& text) {
  constexpr std::array<std::pair<std::string_view, Scale>, 5> ends{
      {{"60/60 °F", Scale::specific_gravity_60F},
       {"60/60", Scale::specific_gravity_60F},
       {"20/20 °C", Scale::specific_gravity},
       {"20/20", Scale::specific_gravity},
       {"SG", Scale::specific_gravity}}};
  for (const auto& [end, scale] : ends) {
    if (!text.ends_with(end)) continue;
    if (end != "SG") text.remove_suffix(end.size());
    return scale;
  }
  return std::nullopt;
}

}  // namespace

template <>
Parsed<spirit::Reading> try_parse<spirit::Reading>(std::string_view text) {
  const auto refuse = [](std::string_view why) {
    return Parsed<spirit::Reading>{std::nullopt, fmt::format("{}{}", reading_phrase, why)};
  };
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  const Parsed<StatedStrength> strength = try_parse<StatedStrength>(text);
  if (strength)
    return {spirit::Reading{strength.value->value, scale_of(strength.value->scale)}, {}};
  if (const Parsed<Density> density = try_parse<Density>(text)) {
    const double figure = density.value->kilograms_per_cubic_metre();
    if (!(figure >= 700.0 && figure <= 1100.0)) return refuse(", from 700 to 1100 kg/m³");
    return {spirit::Reading{figure, Scale::density}, {}};
  }
  std::string_view gravity_text = text;
  if (const std::optional<Scale> scale = gravity_scale(gravity_text)) {
    const Parsed<SpecificGravity> gravity = try_parse<SpecificGravity>(gravity_text);
    if (!gravity) return refuse("");
    const double figure = gravity.value->ratio();
    if (!(figure >= 0.7 && figure <= 1.1)) return refuse(", from SG 0.7 to 1.1");
    return {spirit::Reading{figure, *scale}, {}};
  }
  // The refusal of a strength knows about ranges, commas and a bare "%".
  const std::size_t why = strength.accepted.find("proof\"");
  return refuse(why == std::string::npos ? std::string_view{}
                                         : std::string_view(strength.accepted).substr(why + 6));
}

}  // namespace lynearm::units
