// A gauging in words: the figures, and under --why how they came about.
#pragma once

#include <string>

#include "cli/gauge_input.hpp"
#include "cli/look.hpp"
#include "spirit/gauging.hpp"

namespace lynearm::cli {

/// The headline, the table, the uncertainty in a line, and the cautions.
[[nodiscard]] std::string text(const AskedGauging& asked, const spirit::Gauging& gauging,
                               const Look& look);

/// What went in, the definitions, the equations, their sources, what the uncertainty is made
/// of.
[[nodiscard]] std::string why(const AskedGauging& asked, const spirit::Gauging& gauging,
                              const Look& look);

}  // namespace lynearm::cli
