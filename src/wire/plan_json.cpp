#include "wire/plan_json.hpp"

#include <algorithm>
#include <string_view>

#include "base/error.hpp"
#include "spirit/lot.hpp"
#include "wire/plan_parts.hpp"

namespace lynearm::wire {
namespace {

Json batch_part(const plan::Recipe& recipe) {
  Json object;
  object["name"] = recipe.name;
  if (!recipe.remark.empty()) object["remark"] = recipe.remark;
  return object;
}

std::string_view word(plan::BoilerHeat heat) {
  switch (heat) {
    case plan::BoilerHeat::element:
      return "element";
    case plan::BoilerHeat::plate:
      return "plate";
    case plan::BoilerHeat::flame:
      return "flame";
    case plan::BoilerHeat::steam_jacket:
      return "steam jacket";
    case plan::BoilerHeat::water_bath:
      return "water bath";
  }
  return "";
}

Json kit_part(const plan::Kit& kit) {
  Json object;
  object["name"] = kit.name;
  object["pressure_kPa"] = figure(kit.place.pressure.kilopascals());
  object["ambient_C"] = figure(kit.place.ambient.celsius());
  object["cold_liquor_C"] = figure(kit.liquor.cold.celsius());
  object["hot_liquor_C"] = figure(kit.liquor.hot.celsius());
  object["coolant_inlet_C"] = figure(kit.still.coolant_inlet.celsius());
  object["boiler_L"] = figure(kit.still.boiler.total.litres());
  object["boiler_power_kW"] = figure(kit.still.boiler.power.kilowatts());
  object["boiler_heat"] = word(kit.still.boiler.heat);
  const units::Volume element = kit.still.boiler.element_covered_above;
  if (element > units::Volume{}) object["element_covered_above_L"] = figure(element.litres());
  Json vessels = Json::array();
  for (const plan::Vessel& vessel : kit.vessels) {
    Json one;
    one["name"] = vessel.name;
    one["total_L"] = figure(vessel.total.litres());
    one["working_L"] = figure(vessel.working.litres());
    vessels.push_back(std::move(one));
  }
  object["vessels"] = std::move(vessels);
  Json casks = Json::array();
  for (const plan::Cask& cask : kit.casks) {
    Json one;
    one["name"] = cask.name;
    one["volume_L"] = figure(cask.volume.litres());
    casks.push_back(std::move(one));
  }
  object["casks"] = std::move(casks);
  object["thermometer_K"] = figure(kit.instruments.thermometer.kelvins());
  object["alcoholmeter_percent_vol"] = figure(kit.instruments.alcoholmeter.percent());
  return object;
}

Json figures_part(const plan::Plan& plan, const plan::Bands* bands) {
  Json object;
  for (const plan::Figure* of_plan : plan::figures_of(plan)) {
    const plan::Figure& one = *of_plan;
    Json entry;
    entry["stage"] = one.stage;
    entry["name"] = one.name;
    entry["unit"] = one.unit;
    entry["decimals"] = one.decimals;
    entry["planned"] = figure(one.of(plan));
    if (bands != nullptr) {
      const auto banded =
          std::find_if(bands->figures.begin(), bands->figures.end(),
                       [&](const plan::Banded& b) { return b.figure->key == one.key; });
      base::ensure(banded != bands->figures.end(), "each figure of a plan has a band");
      entry["low"] = figure(banded->band.low);
      entry["median"] = figure(banded->band.median);
      entry["high"] = figure(banded->band.high);
    }
    object[std::string(one.key)] = std::move(entry);
  }
  return object;
}

}  // namespace

Json gauged(const spirit::Lot& lot) {
  // What is left when equal lots are subtracted is rounding, and has no strength.
  const bool nothing = lot.mass() < units::Mass::milligrams(1e-3);
  const spirit::Lot some = nothing ? spirit::Lot{} : lot;
  Json object;
  object["mass_kg"] = figure(some.mass().kilograms());
  object["volume_L_20C"] = figure(spirit::volume(some).litres());
  object["strength_percent_vol"] = figure(spirit::strength(some).percent());
  object["pure_alcohol_L"] = figure(spirit::pure_alcohol(some).litres());
  return object;
}

Json masses(const wort::Wash& wash) {
  Json object;
  object["water_kg"] = figure(wash.water.kilograms());
  object["ethanol_kg"] = figure(wash.ethanol.kilograms());
  object["extract_kg"] = figure(wash.extract.kilograms());
  object["pure_alcohol_L"] = figure(spirit::pure_alcohol(wort::lot(wash)).litres());
  return object;
}

std::vector<std::size_t> thinned(std::size_t count,
                                 const std::function<bool(std::size_t)>& keep) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; keep && i < count; ++i) {
    if (keep(i)) places.push_back(i);
  }
  if (count <= curve_points) {
    places.resize(count);
    for (std::size_t i = 0; i < count; ++i) places[i] = i;
    return places;
  }
  const std::size_t asked = places.size();
  const std::size_t even = asked + 2 < curve_points ? curve_points - asked : 2;
  for (std::size_t i = 0; i < even; ++i) places.push_back(i * (count - 1) / (even - 1));
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end()), places.end());
  return places;
}

std::string plan_json(const plan::Recipe& recipe, const plan::Kit& kit, const plan::Plan& plan,
                      const plan::Bands* bands) {
  Json document;
  document["format"] = plan_format;
  document["batch"] = batch_part(recipe);
  document["kit"] = kit_part(kit);
  if (bands != nullptr) {
    document["ensemble"]["members"] = bands->members;
    document["ensemble"]["failed"] = bands->failed;
  }
  document["figures"] = figures_part(plan, bands);
  document["mash_bill"] = mash_bill_part(recipe, plan.mash.bill);
  if (plan.mash.mash) document["mash"] = mash_part(recipe, *plan.mash.mash);
  if (plan.mash.sugar) document["sugar_boil"] = sugar_boil_part(recipe, *plan.mash.sugar);
  document["wort"] = wort_part(plan.mash.wort);
  document["ferment"] = ferment_part(recipe, plan.ferment);
  document["strip"] = strip_part(plan.strip);
  document["spirit_run"] = spirit_run_part(plan.spirit);
  document["reduce"] = reduce_part(plan.finish.reduce);
  if (plan.finish.wood) document["wood"] = wood_part(recipe, *plan.finish.wood);
  document["bottle"] = bottle_part(plan.finish.bottle);
  document["ledger"] = ledger_part(plan.ledger);
  document["uses"] = uses_part(recipe, plan.uses);
  document["timeline"] = timeline_part(plan.timeline);
  document["findings"] = findings_part(plan.findings);
  document["legal_classes"] = legal_classes_part(recipe, kit, plan);
  return document.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace lynearm::wire
