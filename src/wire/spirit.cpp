#include "wire/spirit.hpp"

#include "spirit/density.hpp"
#include "spirit/strength.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {
namespace {

std::string_view key_of(spirit::Scale scale) {
  switch (scale) {
    case spirit::Scale::percent_vol:
      return "percent_vol_20C";
    case spirit::Scale::percent_vol_15C:
      return "percent_vol_15C";
    case spirit::Scale::percent_vol_60F:
      return "percent_vol_60F";
    case spirit::Scale::percent_mass:
      return "percent_mass";
    case spirit::Scale::us_proof:
      return "us_proof";
    case spirit::Scale::density:
      return "density_kg_m3";
    case spirit::Scale::specific_gravity:
      return "specific_gravity_20C_20C";
    case spirit::Scale::specific_gravity_60F:
      return "specific_gravity_60F_60F";
  }
  return "";
}

}  // namespace

std::string json(const Gauging& gauging) {
  const units::MassFraction ethanol = gauging.ethanol;
  Json object;
  object["strength_percent_vol_20C"] = figure(spirit::volume_strength(ethanol).percent());
  object["strength_percent_mass"] = figure(ethanol.percent());
  object["density_kg_m3_20C"] =
      figure(spirit::density(ethanol, spirit::reference_20C).kilograms_per_cubic_metre());
  object["us_proof"] = figure(spirit::proof(ethanol).degrees());
  object["density_kg_m3_at_temperature"] =
      figure(spirit::density(ethanol, gauging.at).kilograms_per_cubic_metre());
  object["temperature_C"] = figure(gauging.at.celsius());
  object["reading"] = figure(gauging.reading.figure);
  object["reading_scale"] = key_of(gauging.reading.scale);
  return object.dump();
}

std::string json(const spirit::Lot& before, const spirit::Reduction& reduction) {
  Json object;
  object["water_mass_kg"] = figure(reduction.water.kilograms());
  object["water_volume_L_20C"] = figure(reduction.water_at_20C.litres());
  object["final_volume_L_20C"] = figure(reduction.volume_at_20C.litres());
  object["contraction_L"] = figure(reduction.contraction.litres());
  object["final_strength_percent_vol_20C"] =
      figure(spirit::strength(reduction.result).percent());
  object["final_mass_kg"] = figure(reduction.result.mass().kilograms());
  object["spirit_volume_L_20C"] = figure(spirit::volume(before).litres());
  object["spirit_strength_percent_vol_20C"] = figure(spirit::strength(before).percent());
  object["pure_alcohol_L_20C"] = figure(spirit::pure_alcohol(before).litres());
  return object.dump();
}

std::string json(const std::vector<spirit::Lot>& parts, const spirit::Blend& blend) {
  Json object;
  object["volume_L_20C"] = figure(blend.volume_at_20C.litres());
  object["strength_percent_vol_20C"] = figure(blend.strength.percent());
  object["contraction_L"] = figure(blend.contraction.litres());
  object["mass_kg"] = figure(blend.result.mass().kilograms());
  object["pure_alcohol_L_20C"] = figure(spirit::pure_alcohol(blend.result).litres());
  Json list = Json::array();
  for (const spirit::Lot& part : parts) {
    Json entry;
    entry["volume_L_20C"] = figure(spirit::volume(part).litres());
    entry["strength_percent_vol_20C"] = figure(spirit::strength(part).percent());
    list.push_back(std::move(entry));
  }
  object["parts"] = std::move(list);
  return object.dump();
}

}  // namespace lynearm::wire
