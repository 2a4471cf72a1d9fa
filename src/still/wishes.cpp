#include "still/wishes.hpp"

#include <fmt/format.h>

#include <string>

#include "base/error.hpp"

namespace lynearm::still {

const std::array<Purpose, 2>& purposes() {
  static constexpr std::array<Purpose, 2> all{{
      {"clean", "clean, for quick ageing", {1.0, 0.0, 0.3, 2.0, 1.0}},
      {"fuller", "fuller, for long ageing", {1.0, 0.0, 0.3, 1.0, 1.0}},
  }};
  return all;
}

const Purpose& purpose(std::string_view id) {
  std::string names;
  for (const Purpose& one : purposes()) {
    if (one.id == id) return one;
    names += fmt::format("{}\"{}\" ({})", names.empty() ? "" : " or ", one.id, one.words);
  }
  throw base::InputError("purpose", std::string(id), names);
}

}  // namespace lynearm::still
