// Wood in words, as the journal tells it. For the sources of this room only.
#pragma once

#include <fmt/format.h>

#include <optional>
#include <string>

#include "journal/body.hpp"
#include "sheet/batch_words.hpp"

namespace lynearm::sheet {

/// "used once before"; empty when it was not told.
[[nodiscard]] inline std::string used_before(std::optional<int> times) {
  if (!times) return {};
  if (*times == 0) return "new";
  return *times == 1 ? "used once before" : fmt::format("used {} times before", *times);
}

/// "2 staves, american-oak, light, new"
[[nodiscard]] inline std::string staves_words(const journal::StavesLaid& laid) {
  std::string text = count_of(laid.staves, "stave", "staves");
  for (const std::string& more : {laid.species, laid.toast, used_before(laid.used_times)}) {
    if (!more.empty()) text += ", " + more;
  }
  return text;
}

}  // namespace lynearm::sheet
