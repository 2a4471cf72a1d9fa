#include "wire/reduction.hpp"

#include "spirit/strength.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {
namespace {

Json lot_json(const spirit::Lot& lot) {
  Json object;
  object["volume_L_20C"] = figure(spirit::volume(lot).litres());
  object["strength_percent_vol_20C"] = figure(spirit::strength(lot).percent());
  object["mass_kg"] = figure(lot.mass().kilograms());
  return object;
}

Json obscured_json(const spirit::ObscuredReduction& obscured) {
  Json object;
  object["true_strength_percent_vol_20C"] = figure(obscured.true_strength.percent());
  object["apparent_strength_percent_vol_20C"] = figure(obscured.apparent_strength.percent());
  object["residue_g_L"] = figure(obscured.residue.grams_per_litre());
  return object;
}

Json steps_json(const std::vector<spirit::ReductionStep>& steps) {
  Json list = Json::array();
  for (const spirit::ReductionStep& step : steps) {
    Json entry;
    entry["water_mass_kg"] = figure(step.water.kilograms());
    entry["water_volume_L"] = figure(step.water_volume.litres());
    entry["volume_L"] = figure(step.volume.litres());
    entry["strength_percent_vol_20C"] = figure(step.after.percent());
    list.push_back(std::move(entry));
  }
  return list;
}

std::string_view key_of(spirit::Remedy remedy) {
  switch (remedy) {
    case spirit::Remedy::none:
      return "none";
    case spirit::Remedy::add_water:
      return "add_water";
    case spirit::Remedy::add_spirit:
      return "add_spirit";
  }
  return "";
}

}  // namespace

std::string json(const ReductionReport& report) {
  const spirit::MeasuredReduction& measured = report.measured;
  const spirit::Reduction& reduction = measured.by_mass;
  Json object;
  object["water_mass_kg"] = figure(reduction.water.kilograms());
  object["water_volume_L_20C"] = figure(reduction.water_at_20C.litres());
  object["final_volume_L_20C"] = figure(reduction.volume_at_20C.litres());
  object["contraction_L"] = figure(reduction.contraction.litres());
  object["final_strength_percent_vol_20C"] =
      figure(report.obscured ? report.obscured->true_strength.percent()
                             : spirit::strength(reduction.result).percent());
  object["final_mass_kg"] = figure(reduction.result.mass().kilograms());
  object["spirit_volume_L_20C"] = figure(spirit::volume(report.before).litres());
  object["spirit_strength_percent_vol_20C"] =
      figure(report.obscured ? report.obscured_before.percent()
                             : spirit::strength(report.before).percent());
  object["spirit_mass_kg"] = figure(report.before.mass().kilograms());
  object["pure_alcohol_L_20C"] = figure(spirit::pure_alcohol(reduction.result).litres());
  object["spirit_temperature_C"] = figure(report.at.spirit.celsius());
  object["water_temperature_C"] = figure(report.at.water.celsius());
  object["result_temperature_C"] = figure(report.at.result.celsius());
  object["spirit_volume_L"] = figure(measured.spirit.litres());
  object["water_volume_L"] = figure(measured.water.litres());
  object["final_volume_L"] = figure(measured.result.litres());
  if (report.scale_shows) object["scale_shows_kg"] = figure(report.scale_shows->kilograms());
  if (report.weaker) object["weaker_spirit"] = lot_json(*report.weaker);
  if (report.obscured) object["obscured"] = obscured_json(*report.obscured);
  if (!report.steps.empty()) object["steps"] = steps_json(report.steps);
  return object.dump();
}

std::string json(const spirit::Correction& correction, const spirit::Mistake& mistake) {
  Json object;
  object["remedy"] = key_of(correction.remedy);
  object["water_mass_kg"] = figure(correction.water.kilograms());
  object["spirit_volume_L_20C"] = figure(spirit::volume(correction.spirit).litres());
  object["final_volume_L_20C"] = figure(correction.volume_at_20C.litres());
  object["final_strength_percent_vol_20C"] =
      figure(spirit::strength(correction.result).percent());
  Json found;
  found["mass_kg"] = figure(mistake.mass.kilograms());
  found["pure_alcohol_L_20C"] = figure(mistake.pure_alcohol.litres());
  found["strength_percent_vol_20C"] = figure(mistake.strength.percent());
  object["found_less_planned"] = std::move(found);
  Json either;
  either["water_more_by_kg"] = figure(mistake.water.kilograms());
  if (mistake.spirit_strength) {
    either["spirit_strength_percent_vol_20C"] = figure(mistake.spirit_strength->percent());
  }
  if (mistake.spirit_mass) {
    either["spirit_more_by_kg"] = figure(mistake.spirit_mass->kilograms());
  }
  object["explained_by_either"] = std::move(either);
  return object.dump();
}

}  // namespace lynearm::wire
