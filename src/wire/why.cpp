#include "wire/why.hpp"

namespace lynearm::wire {

Json why_json(const Why& why) {
  Json json;
  json["what"] = why.what;
  json["inputs"] = Json::array();
  for (const auto& [name, value] : why.inputs) {
    json["inputs"].push_back({{"name", name}, {"value", value}});
  }
  json["model"] = why.model;
  json["source"] = why.source;
  if (!why.band.empty()) json["band"] = why.band;
  return json;
}

}  // namespace lynearm::wire
