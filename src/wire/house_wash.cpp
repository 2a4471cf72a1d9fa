// Mash and ferment as they were told, as JSON.
#include "wire/house_parts.hpp"

namespace lynearm::wire {

using namespace journal;  // this file is about nothing else

namespace {

Json held_json(const WashHeld& held) {
  return {{"volume_L_20C", figure(held.volume.litres())},
          {"pure_alcohol_L_20C", figure(held.pure_alcohol.litres())},
          {"proof_gallons", proof_gallons(held.pure_alcohol)}};
}

Json gas_json(const plan::GasPitched& told) {
  constexpr std::array<std::string_view, 3> standings = {"gives", "racked", "stands"};
  Json json;
  json["standing"] = std::string(standings[static_cast<std::size_t>(told.standing)]);
  json["mass_kg"] = figure(told.gas.mass.kilograms());
  json["volume_L"] = figure(told.gas.volume.litres());
  if (told.gas.peak) {
    json["peak_L_per_h"] = figure(told.gas.peak->rate.litres_per_hour());
    json["peak_at_h"] = figure(told.gas.peak->at.hours());
    json["fresh_air_m3_per_h"] = figure(told.gas.peak->fresh_air.litres_per_hour() / 1000.0);
    if (told.gas.peak->room) {
      json["room_at_peak_fraction"] = figure(told.gas.peak->room->fraction());
    }
  } else {
    json["no_pace"] = told.no_pace;
  }
  if (told.fed > units::Mass{}) json["fed_kg"] = figure(told.fed.kilograms());
  if (told.room) json["room_m3"] = figure(told.room->cubic_metres());
  return json;
}

}  // namespace

Json mash_json(const MashState& mash) {
  Json json;
  json["temperatures"] = list_of(mash.temperatures, [](const MashPoint& point) {
    Json row = told_json(point.told);
    row["temperature_C"] = figure(point.temperature.celsius());
    return row;
  });
  json["waters"] = list_of(mash.waters, [](const MashWaterState& water) {
    Json row = told_json(water.told);
    row["volume_L"] = figure(water.volume.litres());
    row["temperature_C"] = figure(water.temperature.celsius());
    return row;
  });
  json["checks"] = list_of(mash.checks, [](const MashCheckState& check) {
    Json row = told_json(check.told);
    if (check.iodine) {
      row["iodine"] =
          std::string(fields::iodine_colours[static_cast<std::size_t>(*check.iodine)]);
    }
    if (check.gravity) row["specific_gravity"] = figure(check.gravity->ratio());
    return row;
  });
  json["worts"] = list_of(mash.worts, [](const WortState& wort) {
    Json row = told_json(wort.told);
    row["from"] = wort.from;
    row["volume_L_20C"] = figure(wort.volume.litres());
    row["specific_gravity"] = figure(wort.gravity.ratio());
    row["extract_kg"] = figure(wort.extract.kilograms());
    return row;
  });
  json["extract_kg"] = figure(mash.extract().kilograms());
  return json;
}

Json ferment_json(const FermentState& ferment, const BatchAccount& account,
                  const plan::GasPitched* gas) {
  Json json = Json::object();
  if (ferment.pitch) {
    Json row = told_json(ferment.pitch->told);
    row["volume_L_20C"] = figure(ferment.pitch->volume.litres());
    row["specific_gravity"] = figure(ferment.pitch->gravity.ratio());
    row["extract_kg"] = figure(ferment.pitch->extract.kilograms());
    row["yeast"] = ferment.pitch->yeast;
    row["mass_g"] = figure(ferment.pitch->mass.grams());
    json["pitch"] = std::move(row);
  }
  json["readings"] = list_of(ferment.points, [](const FermentPoint& point) {
    Json row = told_json(point.told);
    if (point.gravity) {
      row["specific_gravity"] = figure(point.gravity->ratio());
      row["by_refractometer"] = point.by_refractometer;
    }
    if (point.temperature) row["temperature_C"] = figure(point.temperature->celsius());
    return row;
  });
  if (ferment.racked) {
    Json row = told_json(ferment.racked->told);
    row["clear_L_20C"] = figure(ferment.racked->clear.litres());
    if (ferment.racked->lees) row["lees_L"] = figure(ferment.racked->lees->litres());
    json["racked"] = std::move(row);
  }
  if (ferment.wash) {
    json["wash"] = {{"entry", print(ferment.wash->told.entry)},
                    {"at", print(ferment.wash->told.at)},
                    {"specific_gravity", figure(ferment.wash->gravity.ratio())},
                    {"strength_percent_vol", figure(ferment.wash->strength.percent())},
                    {"volume_L_20C", figure(ferment.wash->volume.litres())},
                    {"pure_alcohol_L_20C", figure(ferment.wash->pure_alcohol.litres())},
                    {"proof_gallons", proof_gallons(ferment.wash->pure_alcohol)}};
    if (ferment.wash->unread)
      json["wash"]["unread_days"] = figure(ferment.wash->unread->days());
    if (account.waiting.volume > units::Volume{}) {
      json["wash"]["waiting"] = held_json(account.waiting);
    }
    if (account.in_stills.volume > units::Volume{}) {
      json["wash"]["in_stills"] = held_json(account.in_stills);
    }
  }
  if (gas != nullptr) json["carbon_dioxide"] = gas_json(*gas);
  return json;
}

}  // namespace lynearm::wire
