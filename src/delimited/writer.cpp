#include "delimited/writer.hpp"

#include "base/error.hpp"

namespace lynearm::delimited {

void append_cell(std::string& text, std::string_view cell) {
  // A byte order mark at the head of a text would not be taken for a part of it.
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  const bool plain = cell.find_first_of(",\"\r\n") == std::string_view::npos;
  if (plain && !cell.starts_with(byte_order_mark)) {
    text += cell;
    return;
  }
  text += '"';
  for (const char c : cell) {
    if (c == '"') text += '"';
    text += c;
  }
  text += '"';
}

void append_row(std::string& text, std::span<const std::string_view> cells) {
  base::ensure(!cells.empty(), "a row has a cell");
  if (cells.size() == 1 && cells.front().empty()) text += "\"\"";
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) text += ',';
    append_cell(text, cells[i]);
  }
  text += '\n';
}

}  // namespace lynearm::delimited
