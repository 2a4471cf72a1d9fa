#include "cli/table_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "cli/table.hpp"
#include "sheet/gauging_layout.hpp"
#include "sheet/gauging_words.hpp"

namespace lynearm::cli {
namespace {

using spirit::GaugingTable;

constexpr std::size_t gap = 2;

std::string to_the_right(std::string_view text, std::size_t width) {
  const std::size_t taken = columns(text);
  return std::string(width > taken ? width - taken : 0, ' ') + std::string(text);
}

std::string without_trailing_spaces(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line + "\n";
}

// The head of each column in lines, as many for all, the empty ones on top.
std::vector<std::vector<std::string>> column_heads(const GaugingTable& table) {
  constexpr std::size_t word_width = 12;
  std::vector<std::vector<std::string>> heads;
  std::size_t most = 1;
  for (std::size_t column = 0; column < table.width(); ++column) {
    const std::string head = sheet::column_head(table, column);
    heads.push_back(table.columns.figures.empty() ? wrapped(head, word_width)
                                                  : std::vector<std::string>{head});
    most = std::max(most, heads.back().size());
  }
  for (std::vector<std::string>& lines : heads) {
    lines.insert(lines.begin(), most - lines.size(), "");
  }
  return heads;
}

std::string figures_of(const GaugingTable& table) {
  const auto heads = column_heads(table);
  std::string corner = table.rows.quantity;
  if (!table.rows.unit.empty()) corner += ", " + table.rows.unit;
  const std::size_t first = columns(corner);
  std::vector<std::size_t> widths(table.width(), 0);
  for (std::size_t column = 0; column < table.width(); ++column) {
    for (const std::string& line : heads[column]) {
      widths[column] = std::max(widths[column], columns(line));
    }
    for (std::size_t row = 0; row < table.height(); ++row) {
      widths[column] = std::max(widths[column], sheet::figure_of(table, row, column).size());
    }
    widths[column] += gap;
  }
  const std::string over = sheet::across(table);
  std::string text;
  if (!over.empty()) text += std::string(2 + first + gap, ' ') + over + "\n";
  for (std::size_t i = 0; i < heads.front().size(); ++i) {
    const bool last = i + 1 == heads.front().size();
    std::string line = "  " + to_the_right(last ? corner : "", first);
    for (std::size_t column = 0; column < table.width(); ++column) {
      line += to_the_right(heads[column][i], widths[column]);
    }
    text += without_trailing_spaces(line);
  }
  for (std::size_t row = 0; row < table.height(); ++row) {
    if (row == 0 || sheet::begins_five(table.rows, row)) text += "\n";
    std::string line = "  " + to_the_right(sheet::head_of(table.rows, row), first);
    for (std::size_t column = 0; column < table.width(); ++column) {
      line += to_the_right(sheet::figure_of(table, row, column), widths[column]);
    }
    text += without_trailing_spaces(line);
  }
  return text;
}

}  // namespace

std::string table_headline(const GaugingTable& table, const Look& look) {
  const sheet::GaugingWords words = sheet::words_of(table);
  return headline(fmt::format("{}, {}: {} x {} figures.", words.title, words.subtitle,
                              table.height(), table.width()),
                  look);
}

std::string table_text(const GaugingTable& table, const Look& look) {
  const sheet::GaugingWords words = sheet::words_of(table);
  std::string text = table_headline(table, look) + "\n" + figures_of(table) + "\n";
  const std::string example = sheet::example_of(table, {0, table.height()}, {0, table.width()});
  if (!example.empty()) text += set_in_lines(example);
  if (!words.about.empty()) text += set_in_lines(words.about);
  for (const std::string& note : words.notes) text += set_in_lines(note);
  if (words.caution) text += caution(words.caution->text, look);
  return text;
}

}  // namespace lynearm::cli
