#include "wire/why.hpp"

#include <fmt/format.h>

#include <map>

namespace lynearm::wire {

Json why_json(const Why& why) {
  Json json;
  json["what"] = why.what;
  json["inputs"] = Json::array();
  // Pages tell inputs apart by their names: the second sample of a lot is "sample (2)".
  std::map<std::string, int> named;
  for (const auto& [name, value] : why.inputs) {
    const int times = ++named[name];
    json["inputs"].push_back(
        {{"name", times == 1 ? name : fmt::format("{} ({})", name, times)}, {"value", value}});
  }
  json["model"] = why.model;
  json["source"] = why.source;
  if (!why.band.empty()) json["band"] = why.band;
  return json;
}

}  // namespace lynearm::wire
