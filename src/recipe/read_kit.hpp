// A kit from its text: every key of kit.toml, with its range and its default. What a kit does
// not say is taken from the engine's own tables and estimates, as each key's line tells.
#pragma once

#include <string>
#include <string_view>

#include "plan/kit.hpp"
#include "recipe/description.hpp"
#include "recipe/reader.hpp"

namespace lynearm::recipe {

/// The keys of a kit, as the reader asks for them.
[[nodiscard]] plan::Kit kit_keys(Section& in);

/// A kit from TOML.
///
/// file       named in faults; not opened
/// throws     InputError with every mistake of the text, in its order
[[nodiscard]] plan::Kit read_kit(std::string_view text, std::string file);

/// What a kit may hold: for json_schema() and markdown().
[[nodiscard]] Description describe_kit();

}  // namespace lynearm::recipe
