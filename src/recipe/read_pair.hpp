// A recipe and the kit it is made with, read and held against each other: all mistakes of both
// texts told together, and what the two say against each other when each is right by itself.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "plan/kit.hpp"
#include "plan/recipe.hpp"

namespace lynearm::recipe {

/// A text and the name it goes by in faults. The file is not opened.
struct NamedText {
  std::string_view text;
  std::string file;
};

struct Pair {
  plan::Recipe recipe;
  plan::Kit kit;
};

/// Recipe and kit from TOML.
///
/// throws     InputError with every mistake of the recipe, then every mistake of the kit, each
///            in the order of its text; when there is none, with plan::contradictions() and
///            their places
[[nodiscard]] Pair read_pair(const NamedText& recipe, const NamedText& kit);

/// Faults the engine found in values read from these texts, with file, line and column: paths
/// that begin with a key of a recipe lie in the recipe, "kit." in the kit (and lose that first
/// step). A fault in neither, or that has its place, is left as it is.
[[nodiscard]] std::vector<base::Fault> placed(std::vector<base::Fault> faults,
                                              const NamedText& recipe, const NamedText& kit);

}  // namespace lynearm::recipe
