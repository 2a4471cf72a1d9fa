// Cells as comma-separated text that any reader takes: RFC 4180, quoted only where it must be,
// lines ended by LF as everywhere in the house.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace lynearm::delimited {

/// Appends one cell. It is quoted where it holds a comma, a quote mark or a line end.
void append_cell(std::string& text, std::string_view cell);

/// Appends a row with its line end. A row of one empty cell is quoted too, so that it is not
/// taken for an empty line. cells: at least one.
void append_row(std::string& text, std::span<const std::string_view> cells);

}  // namespace lynearm::delimited
