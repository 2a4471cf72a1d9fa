#include "wire/todays_air.hpp"

#include <utility>

#include "wire/air_parts.hpp"

namespace lynearm::wire {

Json air_json(const still::TodaysAir& air, const std::vector<still::DaysCue>& cues) {
  Json object;
  object["pressure_hPa"] = figure(air.pressure.hectopascals());
  object["pressure_sd_hPa"] = figure(air.pressure_sd.hectopascals());
  object["thermometer_offset_K"] = figure(air.thermometer_offset.kelvins());
  object["thermometer_offset_sd_K"] = figure(air.offset_sd.kelvins());
  object["correlation"] = figure(air.correlation);
  object["surprise"] = figure(air.surprise);
  object["account"] = still::account(air);
  if (cues.empty()) return object;
  Json list = Json::array();
  for (const still::DaysCue& cue : cues) {
    Json entry;
    const bool head = cue.of == still::CueOf::head;
    entry["of"] = head ? "head" : "boiling";
    entry[head ? "spout_percent_vol" : "liquid_percent_vol"] = figure(cue.strength.percent());
    entry["temperature_C"] = figure(cue.truly.celsius());
    entry["shown_C"] = figure(cue.cue.as_shown.celsius());
    entry["shown_sd_K"] = figure(cue.cue.sd.kelvins());
    list.push_back(std::move(entry));
  }
  object["cues"] = std::move(list);
  return object;
}

std::string todays_air_json(const still::TodaysAir& air,
                            const std::vector<still::DaysCue>& cues) {
  Json object;
  object["todays_air"] = air_json(air, cues);
  return object.dump();
}

}  // namespace lynearm::wire
