// Runs "lynearm plan" on a batch of examples/, wherever the test itself is run.
#pragma once

#include <string>
#include <vector>

#include "cli/program.hpp"
#include "places.hpp"

namespace lynearm::cli {

inline std::string recipe_of(const std::string& example) {
  return LYNEARM_SOURCE_DIR "/examples/" + example + "/recipe.toml";
}
inline std::string kit_of(const std::string& example) {
  return LYNEARM_SOURCE_DIR "/examples/" + example + "/kit.toml";
}

inline std::vector<std::string> plan_words(const std::string& example,
                                           const std::vector<std::string>& more) {
  std::vector<std::string> words{"plan", recipe_of(example), "--kit", kit_of(example)};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

[[nodiscard]] inline Ran planned(const std::string& example,
                                 const std::vector<std::string>& more, Out out = Out::pipe) {
  return lynearm(plan_words(example, more), out);
}

}  // namespace lynearm::cli
