// A recipe from its text: every key of recipe.toml, with its range and its default. What is
// wrong across keys of the recipe alone is told here; what the kit lacks in read_pair.hpp.
#pragma once

#include <string>
#include <string_view>

#include "plan/recipe.hpp"
#include "recipe/description.hpp"
#include "recipe/reader.hpp"

namespace lynearm::recipe {

/// The keys of a recipe, as the reader asks for them.
[[nodiscard]] plan::Recipe recipe_keys(Section& in);

/// A recipe from TOML.
///
/// file       named in faults; not opened
/// throws     InputError with every mistake of the text, in its order
/// leaves out whether a kit can carry it out: read_pair.hpp
[[nodiscard]] plan::Recipe read_recipe(std::string_view text, std::string file);

/// What a recipe may hold: for json_schema() and markdown().
[[nodiscard]] Description describe_recipe();

}  // namespace lynearm::recipe
