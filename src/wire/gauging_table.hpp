// A gauging table as CSV and as JSON, for spreadsheets and programs. Holds no physics.
#pragma once

#include <string>

#include "spirit/gauging_table.hpp"

namespace lynearm::wire {

/// Comma-separated text after RFC 4180, lines ended by LF as everywhere in the house, plain
/// ASCII so that every spreadsheet reads it. A head line, then a line for each row; nothing
/// else, since a comment would break its readers. The first head says what rows and figures are
/// and what they were computed from; the other heads carry their unit: "10 C". Figures have a
/// point and the decimals of the printed table; a cell without a figure is left empty.
[[nodiscard]] std::string csv(const spirit::GaugingTable& table);

/// table, instrument (of a correction or showing table), rows, columns, measures, figures: rows
/// of figures, null where there is none, for the reasons in blank.
[[nodiscard]] std::string json(const spirit::GaugingTable& table);

}  // namespace lynearm::wire
