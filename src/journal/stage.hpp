// The stages of a batch, from the vessels to the account, in the words of the trade.
#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace lynearm::journal {

enum class Stage {
  kit,
  mash_bill,
  mash,
  ferment,
  strip,
  spirit_run,
  jars,
  reduce,
  wood,
  bottle,
  ledger,
};

inline constexpr std::array<std::string_view, 11> stage_words = {
    "kit",  "mash bill", "mash", "ferment", "strip", "spirit run",
    "jars", "reduce",    "wood", "bottle",  "ledger"};

[[nodiscard]] constexpr std::string_view words(Stage stage) {
  return stage_words[static_cast<std::size_t>(stage)];
}

[[nodiscard]] constexpr std::optional<Stage> stage_of(std::string_view word) {
  for (std::size_t i = 0; i < stage_words.size(); ++i) {
    if (stage_words[i] == word) return static_cast<Stage>(i);
  }
  return std::nullopt;
}

}  // namespace lynearm::journal
