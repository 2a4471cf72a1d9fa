// How output for people looks: the units, and whether there is colour. Colour only sets apart
// what the words already say.
#pragma once

#include <string>
#include <string_view>

#include "units/kind.hpp"

namespace lynearm::cli {

struct Look {
  units::System units = units::System::metric;
  bool colour = false;
  bool json = false;
};

/// Whether standard output is a terminal that takes colour and NO_COLOR is not set.
[[nodiscard]] bool colour_wanted();

/// The first line of a command's output.
[[nodiscard]] std::string headline(std::string_view sentence, const Look& look);
/// A line "Caution: ..." at the end of an output.
[[nodiscard]] std::string caution(std::string_view sentence, const Look& look);

}  // namespace lynearm::cli
