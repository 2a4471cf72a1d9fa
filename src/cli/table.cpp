#include "cli/table.hpp"

#include <algorithm>
#include <string_view>

#include "cli/visible.hpp"

namespace lynearm::cli {
namespace {

// Columns before the decimal point of the first figure.
std::size_t before_point(std::string_view figure) {
  return columns(figure.substr(0, figure.find_first_not_of("-0123456789")));
}

// Where the words end that stand on one line: a figure stays with its unit.
std::size_t end_of_piece(std::string_view text, std::size_t at) {
  while (true) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, end - at);
    if (end == text.size() || word.empty() ||
        word.find_first_not_of("(0123456789.") != std::string_view::npos) {
      return end;
    }
    at = end + 1;
  }
}

}  // namespace

std::size_t columns(std::string_view text) {
  // Every byte but the continuation bytes of UTF-8 begins a character.
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::vector<std::string> wrapped(std::string_view words, std::size_t width) {
  // Lines of a longer text run on.
  std::string text(words);
  std::replace_if(
      text.begin(), text.end(), [](char c) { return c == '\n' || c == '\t' || c == '\r'; },
      ' ');
  text = visible(text);
  std::vector<std::string> made;
  std::string line;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = end_of_piece(text, at);
    const std::string piece = text.substr(at, end - at);
    at = end + 1;
    if (!line.empty() && columns(line) + 1 + columns(piece) > width) {
      made.push_back(std::move(line));
      line.clear();
    }
    line += (line.empty() ? "" : " ") + piece;
  }
  made.push_back(std::move(line));
  return made;
}

std::string set_in_lines(std::string_view words) {
  std::string text;
  for (const std::string& line : wrapped(words, page_width)) text += line + '\n';
  return text;
}

std::string grounds(const std::vector<Ground>& all) {
  std::size_t width = 0;
  for (const Ground& ground : all) width = std::max(width, columns(ground.name));
  std::string text = "\nWhy\n";
  for (const Ground& ground : all) {
    std::string name = ground.name;
    for (const std::string& line : wrapped(ground.words, page_width - width - 4)) {
      text += "  ";
      text += name;
      text.append(width - columns(name) + 2, ' ');
      text += line;
      text += '\n';
      name.clear();
    }
  }
  return text;
}

std::string table(const std::vector<Row>& given) {
  std::vector<Row> rows = given;
  for (Row& row : rows) {
    row = {visible(row.name), visible(row.figure), visible(row.remark)};
  }
  std::size_t name_width = 0;
  std::size_t whole_width = 0;
  std::size_t figure_width = 0;
  for (const Row& row : rows) {
    name_width = std::max(name_width, columns(row.name));
    whole_width = std::max(whole_width, before_point(row.figure));
  }
  for (const Row& row : rows) {
    figure_width =
        std::max(figure_width, whole_width - before_point(row.figure) + columns(row.figure));
  }
  std::string text;
  for (const Row& row : rows) {
    const std::string lead(whole_width - before_point(row.figure), ' ');
    text += "  " + row.name + std::string(name_width - columns(row.name) + 2, ' ') + lead +
            row.figure;
    if (!row.remark.empty()) {
      text +=
          std::string(figure_width - columns(row.figure) - lead.size() + 2, ' ') + row.remark;
    }
    text += '\n';
  }
  return text;
}

}  // namespace lynearm::cli
