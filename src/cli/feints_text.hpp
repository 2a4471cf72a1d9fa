// Feints over generations in words and columns.
#pragma once

#include <string>

#include "cli/look.hpp"
#include "still/feints.hpp"

namespace lynearm::cli {

/// What each generation brings, where it leads, and when to bleed feints off.
/// amounts_usual   of congeners: those of a usual charge
[[nodiscard]] std::string feints_text(const still::ToldFeints& told, bool amounts_usual,
                                      const Look& look);

}  // namespace lynearm::cli
