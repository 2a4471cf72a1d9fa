#include "wire/spirit.hpp"

#include "numeric/uncertainty.hpp"
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

std::string_view key_of(spirit::GaugingNote note) {
  switch (note) {
    case spirit::GaugingNote::may_be_frozen:
      return "may_be_frozen";
    case spirit::GaugingNote::refraction_is_flat:
      return "refraction_is_flat";
    case spirit::GaugingNote::obscured:
      return "obscured";
    case spirit::GaugingNote::near_warmest:
      return "near_warmest";
  }
  return "";
}

Json lot_json(const spirit::GaugedLot& lot) {
  const spirit::Account& account = lot.account;
  Json object;
  object["volume_L_20C"] = figure(account.volume_20C.litres());
  object["pure_alcohol_L_20C"] = figure(account.alcohol.litres());
  object["mass_kg"] = figure(account.mass.kilograms());
  object["weight_in_air_kg"] = figure(account.weight.kilograms());
  object["wine_gallons_60F"] = figure(account.volume_60F.us_gallons());
  object["proof_gallons"] = figure(account.proof_gallons.gallons());
  return object;
}

Json uncertainty_json(const spirit::Gauging& gauging) {
  constexpr double k = numeric::coverage_factor;
  Json object;
  object["coverage_factor"] = k;
  object["strength_percent_vol_20C"] = figure(k * gauging.standard.percent());
  if (gauging.lot) {
    object["volume_L_20C"] = figure(k * gauging.lot->volume_standard.litres());
    object["pure_alcohol_L_20C"] = figure(k * gauging.lot->alcohol_standard.litres());
  }
  Json list = Json::array();
  for (const spirit::Contribution& each : gauging.contributions) {
    Json entry;
    entry["from"] = each.input;
    entry["strength_percent_vol_20C"] = figure(each.strength.percent());
    if (gauging.lot) {
      entry["volume_L_20C"] = figure(each.volume.litres());
      entry["pure_alcohol_L_20C"] = figure(each.alcohol.litres());
    }
    list.push_back(std::move(entry));
  }
  object["standard_contributions"] = std::move(list);
  return object;
}

}  // namespace

std::string json(const spirit::GaugingInput& input, const spirit::Gauging& gauging) {
  const units::MassFraction same_strength = spirit::mass_fraction(gauging.strength);
  const auto kgm3 = [](units::Density density) {
    return figure(density.kilograms_per_cubic_metre());
  };
  Json object;
  object["strength_percent_vol_20C"] = figure(gauging.strength.percent());
  object["strength_percent_mass"] = figure(gauging.ethanol.percent());
  object["density_kg_m3_20C"] = kgm3(spirit::density(gauging.apparent, spirit::reference_20C));
  object["us_proof"] = figure(spirit::proof(same_strength).degrees());
  object["strength_percent_vol_15C"] =
      figure(spirit::volume_strength_15C(same_strength).percent());
  object["strength_percent_vol_60F"] =
      figure(spirit::volume_strength_60F(same_strength).percent());
  object["specific_gravity_20C_20C"] =
      figure(spirit::specific_gravity(gauging.apparent).ratio());
  object["specific_gravity_60F_60F"] =
      figure(spirit::specific_gravity_60F(gauging.apparent).ratio());
  object["density_kg_m3_at_temperature"] = kgm3(spirit::density(gauging.apparent, input.at));
  object["temperature_C"] = figure(input.at.celsius());
  if (const auto* by = std::get_if<spirit::ByHydrometer>(&input.observation)) {
    object["reading"] = figure(by->reading.figure);
    object["reading_scale"] = key_of(by->reading.scale);
  }
  if (gauging.other_side) {
    object["other_strength_percent_vol_20C"] =
        figure(spirit::volume_strength(*gauging.other_side).percent());
  }
  if (input.residue > units::MassConcentration{}) {
    object["residue_g_L"] = figure(input.residue.grams_per_litre());
    object["apparent_strength_percent_vol_20C"] =
        figure(spirit::volume_strength(gauging.apparent).percent());
  }
  if (gauging.lot) object["lot"] = lot_json(*gauging.lot);
  object["uncertainty"] = uncertainty_json(gauging);
  Json notes = Json::array();
  for (const spirit::GaugingNote note : gauging.notes) notes.push_back(key_of(note));
  object["notes"] = std::move(notes);
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

std::string json(const std::vector<spirit::Lot>& lots, const spirit::TargetBlend& reached) {
  Json object;
  object["volume_L_20C"] = figure(reached.blend.volume_at_20C.litres());
  object["strength_percent_vol_20C"] = figure(reached.blend.strength.percent());
  object["contraction_L"] = figure(reached.blend.contraction.litres());
  object["mass_kg"] = figure(reached.blend.result.mass().kilograms());
  object["pure_alcohol_L_20C"] = figure(spirit::pure_alcohol(reached.blend.result).litres());
  object["water_mass_kg"] = figure(reached.water.kilograms());
  object["pure_alcohol_left_in_opened_lots_L_20C"] = figure(reached.waste.litres());
  object["proven_least"] = reached.proven;
  Json list = Json::array();
  for (std::size_t i = 0; i < lots.size(); ++i) {
    const spirit::Lot used = lots[i] * reached.used[i].fraction();
    Json entry;
    entry["share_used"] = figure(reached.used[i].fraction());
    entry["volume_used_L_20C"] = figure(spirit::volume(used).litres());
    entry["strength_percent_vol_20C"] = figure(spirit::strength(lots[i]).percent());
    list.push_back(std::move(entry));
  }
  object["parts"] = std::move(list);
  return object.dump();
}

}  // namespace lynearm::wire
