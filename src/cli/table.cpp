#include "cli/table.hpp"

#include <algorithm>
#include <string_view>

namespace lynearm::cli {
namespace {

// Columns before the decimal point of the first figure.
std::size_t before_point(std::string_view figure) {
  return columns(figure.substr(0, figure.find_first_not_of("-0123456789")));
}

}  // namespace

std::size_t columns(std::string_view text) {
  // Every byte but the continuation bytes of UTF-8 begins a character.
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::string table(const std::vector<Row>& rows) {
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
