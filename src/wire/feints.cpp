#include "wire/feints.hpp"

#include "spirit/lot.hpp"
#include "wire/figure.hpp"
#include "wire/still.hpp"

namespace lynearm::wire {
namespace {

void put_lot(Json& object, const std::string& name, const spirit::Lot& lot) {
  object[name + "_volume_L_20C"] = figure(spirit::volume(lot).litres());
  object[name + "_percent_vol"] = figure(spirit::strength(lot).percent());
}

void put_oils(Json& object, const std::string& name, const still::Carried& carried) {
  const still::Oils oils = still::oils(carried);
  object[name + "_higher_alcohols_g_per_L"] = figure(oils.higher.grams_per_litre());
  object[name + "_late_congeners_g_per_L"] = figure(oils.late.grams_per_litre());
}

Json generation_json(const still::Generation& generation) {
  Json row;
  row["generation"] = generation.number;
  put_lot(row, "charge", generation.charge.lot);
  put_lot(row, "feints_in", generation.feints_in.lot);
  row["water_L"] = figure(spirit::volume(spirit::Lot{{}, generation.water}).litres());
  put_lot(row, "hearts", generation.hearts.lot);
  put_lot(row, "feints", generation.feints.lot);
  put_oils(row, "charge", generation.charge);
  put_oils(row, "hearts", generation.hearts);
  return row;
}

Json settling_json(const still::Settling& settling) {
  Json object = generation_json(settling.last);
  object["steady"] = settling.steady;
  object["near_it_from_generation"] = settling.generation;
  object["hearts_oils_over_first"] = figure(settling.oils_multiple());
  return object;
}

Json bleed_json(const still::ToldFeints& told) {
  const still::Bleeding& bleeding = told.bleeding;
  Json object;
  object["oils_at_most_over_first"] = figure(told.limit.oils_multiple);
  object["charge_at_most_L_20C"] =
      told.limit.greatest_charge ? figure(told.limit.greatest_charge->litres()) : Json();
  object["from_generation"] = bleeding.from ? Json(*bleeding.from) : Json();
  object["because_of_oils"] = bleeding.oils;
  object["because_of_volume"] = bleeding.volume;
  object["share_of_feints"] = figure(bleeding.share.fraction());
  object["then"] = settling_json(bleeding.bled);
  return object;
}

}  // namespace

std::string feints_json(const still::ToldFeints& told) {
  Json object;
  object["generations"] = Json::array();
  for (const still::Generation& generation : told.generations) {
    object["generations"].push_back(generation_json(generation));
  }
  object["bled_fraction"] = figure(told.recycling.bled.fraction());
  object["unbled"] = settling_json(told.bleeding.unbled);
  object["bleed"] = bleed_json(told);
  object["cautions"] = Json::array({still_caution, foreshots_caution});
  return object.dump();
}

}  // namespace lynearm::wire
