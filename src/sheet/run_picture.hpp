// A run of a still as a picture that stands alone: strength and temperatures over what has been
// collected, with the cuts, and below it how much of the alcohol and of each group of congeners
// has come by then.
#pragma once

#include <string_view>

#include "sheet/letter.hpp"
#include "still/told_run.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {

/// title      written above the picture
/// system     `both` draws in metric
/// returns    one SVG at true size; with one plot where the run has no congeners
[[nodiscard]] Drawing run_picture(const still::ToldRun& told, std::string_view title,
                                  units::System system);

/// The picture as a file of its own: with the declaration of XML.
[[nodiscard]] std::string svg_file(const Drawing& drawing);

}  // namespace lynearm::sheet
