// Wood in words, as the journal tells it. For the sources of this room only.
#pragma once

#include <fmt/format.h>

#include <optional>
#include <string>

#include "journal/body.hpp"
#include "sheet/batch_words.hpp"
#include "wood/species.hpp"

namespace lynearm::sheet {

/// "used once before"; empty when it was not told.
[[nodiscard]] inline std::string used_before(std::optional<int> times) {
  if (!times) return {};
  if (*times == 0) return "new";
  return *times == 1 ? "used once before" : fmt::format("used {} times before", *times);
}

/// "American white oak", without its Latin name; as it was told where no table has it.
[[nodiscard]] inline std::string species_words(const std::string& told) {
  for (const wood::Species& one : wood::species()) {
    if (one.id == told) return std::string(one.name.substr(0, one.name.find(',')));
  }
  return told;
}

/// "2 staves, American white oak, light, new"
[[nodiscard]] inline std::string staves_words(const journal::StavesLaid& laid) {
  std::string text = count_of(laid.staves, "stave", "staves");
  for (const std::string& more :
       {species_words(laid.species), laid.toast, used_before(laid.used_times)}) {
    if (!more.empty()) text += ", " + more;
  }
  return text;
}

}  // namespace lynearm::sheet
