// The wood that a lot was laid on, as the journal tells it. For the sources of this room only.
#pragma once

#include "journal/state.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {

[[nodiscard]] inline Json on_wood_json(const journal::OnWood& on) {
  const auto kind = [](Json& json, const auto& of) {
    if (!of.species.empty()) json["species"] = of.species;
    if (!of.toast.empty()) json["toast"] = of.toast;
    if (of.used_times) json["used_times"] = *of.used_times;
  };
  Json json;
  json["in"] = on.in;
  kind(json, on);
  if (on.staves) json["staves"] = *on.staves;
  for (const journal::StavesLaid& laid : on.besides) {
    Json one;
    one["staves"] = laid.staves;
    kind(one, laid);
    json["besides"].push_back(std::move(one));
  }
  return json;
}

}  // namespace lynearm::wire
