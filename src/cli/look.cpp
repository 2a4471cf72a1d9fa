#include "cli/look.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>

#include "cli/visible.hpp"

namespace lynearm::cli {

bool colour_wanted() {
  const char* terminal = std::getenv("TERM");
  return std::getenv("NO_COLOR") == nullptr && terminal != nullptr &&
         std::string_view(terminal) != "dumb" && isatty(STDOUT_FILENO) == 1;
}

std::string headline(std::string_view words, const Look& look) {
  const std::string sentence = visible(words);
  return look.colour ? fmt::format("\033[1m{}\033[0m\n", sentence)
                     : fmt::format("{}\n", sentence);
}

std::string caution(std::string_view words, const Look& look) {
  const std::string sentence = visible(words);
  return look.colour ? fmt::format("\033[33mCaution:\033[0m {}\n", sentence)
                     : fmt::format("Caution: {}\n", sentence);
}

}  // namespace lynearm::cli
