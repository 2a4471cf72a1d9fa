// A gauging table on the terminal: title, figures in columns, an example, sources, caution.
#pragma once

#include <string>

#include "cli/look.hpp"
#include "spirit/gauging_table.hpp"

namespace lynearm::cli {

/// "True strength in % by volume at 20 °C, by reading and temperature: 76 x 11 figures."
[[nodiscard]] std::string table_headline(const spirit::GaugingTable& table, const Look& look);

[[nodiscard]] std::string table_text(const spirit::GaugingTable& table, const Look& look);

}  // namespace lynearm::cli
