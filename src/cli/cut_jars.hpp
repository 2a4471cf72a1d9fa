// A file of jars, read: comma-separated text with a head line, one row a jar.
//
// Columns are known by their heads, as in gauge_columns.hpp: under "volume" alone each cell has
// its unit, under "volume_mL" it is a bare number in it. Strengths are either true ("strength",
// "strength_percent_vol", "strength_us_proof"), or what the glass showed ("reading" and its
// forms, with "temperature"); then the volume too was read at that temperature. Pure: opens no
// file.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "still/jar.hpp"

namespace lynearm::cli {

/// The jars of a text, sound as still::check() wants them.
///
/// file       what the faults call the text
/// throws     InputError with every fault, each with its line; "jars" when there is no row
[[nodiscard]] std::vector<still::Jar> jars_of(std::string_view text, const std::string& file);

/// The rule above for people: whole lines for a help page.
[[nodiscard]] std::string jars_help();

}  // namespace lynearm::cli
