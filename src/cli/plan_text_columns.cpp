// Rows of a plan set in columns.
#include <algorithm>

#include "cli/plan_text_words.hpp"
#include "cli/table.hpp"

namespace lynearm::cli::planned {
namespace {

// Columns before the decimal point of the first figure.
std::size_t before_point(std::string_view figure) {
  return columns(figure.substr(0, figure.find_first_not_of("-0123456789")));
}

}  // namespace

std::string lines(const std::vector<Line>& rows) {
  std::size_t name = 0;
  std::size_t whole = 0;
  for (const Line& row : rows) {
    name = std::max(name, columns(row.name));
    whole = std::max(whole, before_point(row.figure));
  }
  const auto aligned = [whole](const std::string& figure) {
    return std::string(whole - before_point(figure), ' ') + figure;
  };
  std::size_t figure = 0;
  std::size_t band = 0;
  for (const Line& row : rows) {
    figure = std::max(figure, columns(aligned(row.figure)));
    band = std::max(band, columns(row.band));
  }
  std::string text;
  for (const Line& row : rows) {
    std::string line(2, ' ');
    line += padded(row.name, name + 2, Side::left);
    line += padded(aligned(row.figure), figure + 2, Side::left);
    if (band > 0) line += padded(row.band, band + 2, Side::left);
    const std::size_t indent = columns(line);
    const std::size_t room = indent + 20 < page_width ? page_width - indent : 20;
    const std::vector<std::string> remark = wrapped(row.remark, room);
    text += without_trailing_spaces(line + remark.front()) + '\n';
    for (std::size_t i = 1; i < remark.size(); ++i) {
      text += std::string(indent, ' ') + remark[i] + '\n';
    }
  }
  return text;
}

}  // namespace lynearm::cli::planned
