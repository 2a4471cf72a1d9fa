#include "cli/page_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "cli/table.hpp"
#include "cli/visible.hpp"

namespace lynearm::cli {
namespace {

// A cell in both systems, "18.0 L (4.76 gal) at 75.0 °C (167.0 °F)", as one above the other.
std::pair<std::string, std::string> metric_and_us(const std::string& cell) {
  std::string metric;
  std::string us;
  for (std::size_t at = 0; at < cell.size();) {
    const std::size_t opens = cell.find(" (", at);
    const std::size_t closes = cell.find(')', opens);
    if (opens == std::string::npos || closes == std::string::npos) {
      metric += cell.substr(at);
      break;
    }
    metric += cell.substr(at, opens - at);
    us += (us.empty() ? "" : " at ") + cell.substr(opens + 2, closes - opens - 2);
    at = closes + 1;
  }
  return {std::move(metric), std::move(us)};
}

using Rows = std::vector<std::vector<std::string>>;

// A last column that wraps wants this much.
constexpr std::size_t room_for_words = 28;

std::size_t width_of(const std::vector<Column>& heads, const Rows& rows, bool last_wraps) {
  std::size_t width = 0;
  for (std::size_t i = 0; i < heads.size(); ++i) {
    std::size_t widest = columns(heads[i].head);
    for (const auto& row : rows) widest = std::max(widest, columns(row[i]));
    if (last_wraps && i + 1 == heads.size()) widest = std::min(widest, room_for_words);
    width += widest + 2;
  }
  return width;
}

// Each row as two: the second system below the first. Names and last words stay whole.
Rows second_system_below(const std::vector<Column>& heads, const Rows& rows) {
  Rows made;
  for (const auto& row : rows) {
    std::vector<std::string> above = row;
    std::vector<std::string> below(row.size());
    bool any = false;
    for (std::size_t i = 1; i < row.size(); ++i) {
      if (i + 1 == row.size() && heads[i].side == Side::left) continue;
      std::pair<std::string, std::string> both = metric_and_us(row[i]);
      above[i] = std::move(both.first);
      below[i] = std::move(both.second);
      any = any || !below[i].empty();
    }
    made.push_back(std::move(above));
    if (any) made.push_back(std::move(below));
  }
  return made;
}

}  // namespace

std::string padded(const std::string& text, std::size_t width, Side side) {
  const std::size_t has = columns(text);
  const std::string space(width > has ? width - has : 0, ' ');
  return side == Side::left ? text + space : space + text;
}

std::string without_trailing_spaces(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

std::string heading(std::string_view name, const Look& look) {
  return look.colour ? fmt::format("\n\033[1m{}\033[0m\n", name) : fmt::format("\n{}\n", name);
}

std::string paragraph(std::string_view words) {
  std::string text;
  for (const std::string& line : wrapped(words, page_width - 2)) text += "  " + line + '\n';
  return text;
}

std::string caution_of(const sheet::Caution& caution, std::string_view place,
                       const Look& look) {
  std::string word(caution.word);
  if (word[0] >= 'A' && word[0] <= 'Z') word[0] = static_cast<char>(word[0] - 'A' + 'a');
  std::string text = fmt::format("Caution: {}. {}", word, caution.text);
  // The sentences are shared with the batch sheet, which calls itself one.
  constexpr std::string_view sheets_own = "on this sheet";
  const std::size_t at = text.find(sheets_own);
  if (at != std::string::npos) text.replace(at, sheets_own.size(), place);
  std::string set = paragraph(text);
  if (look.colour) set.replace(2, 8, "\033[33mCaution:\033[0m");
  return set;
}

std::string grid(const std::vector<Column>& heads,
                 const std::vector<std::vector<std::string>>& given) {
  const bool last_wraps = heads.back().side == Side::left;
  const bool too_wide = width_of(heads, given, last_wraps) > page_width;
  Rows rows = too_wide ? second_system_below(heads, given) : given;
  for (auto& row : rows) {
    for (std::string& cell : row) cell = visible(cell);
  }
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < heads.size(); ++i) {
    std::size_t width = columns(heads[i].head);
    for (const auto& row : rows) width = std::max(width, columns(row[i]));
    widths.push_back(width);
  }
  std::size_t before_last = 2;
  for (std::size_t i = 0; i + 1 < heads.size(); ++i) before_last += widths[i] + 2;
  const std::size_t room = before_last + 20 < page_width ? page_width - before_last : 20;
  const bool wraps = last_wraps && widths.back() > room;

  std::string text;
  const auto put = [&](const std::vector<std::string>& row) {
    std::string line(2, ' ');
    for (std::size_t i = 0; i + 1 < heads.size(); ++i) {
      line += padded(row[i], widths[i], heads[i].side);
      line += "  ";
    }
    const std::vector<std::string> last =
        wraps ? wrapped(row.back(), room)
              : std::vector<std::string>{padded(row.back(), widths.back(), heads.back().side)};
    text += without_trailing_spaces(line + last.front()) + '\n';
    for (std::size_t i = 1; i < last.size(); ++i) {
      text += std::string(before_last, ' ') + last[i] + '\n';
    }
  };
  std::vector<std::string> head;
  for (const Column& column : heads) head.push_back(column.head);
  if (std::any_of(head.begin(), head.end(), [](const auto& word) { return !word.empty(); })) {
    put(head);
  }
  for (const auto& row : rows) put(row);
  return text;
}

}  // namespace lynearm::cli
