// Why a figure is what it is: what went into it, by which model, after which source, and what
// its band is made of. It travels with the figure; a page asks for it at a tap. For the sources
// of this room only.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "wire/figure.hpp"

namespace lynearm::wire {

struct Why {
  std::string what;  ///< "True strength by volume at 20 °C"
  std::vector<std::pair<std::string, std::string>> inputs;
  std::string model;
  std::string source;
  std::string band;  ///< empty when the figure has none
};

[[nodiscard]] Json why_json(const Why& why);

}  // namespace lynearm::wire
