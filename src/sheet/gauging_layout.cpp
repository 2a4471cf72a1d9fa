#include "sheet/gauging_layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "base/error.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {
namespace {

using spirit::GaugingTable;
using spirit::Heads;

constexpr double mm(double pt) { return pt / points_per_mm; }

constexpr double gap = 0.9;         // between columns, in letters of the figures
constexpr double tight_row = 1.26;  // least height of a row
constexpr double loose_row = 1.60;  // most, when the sheet has room to spare
constexpr double widest = 2.4;      // of what a column needs, on a wide sheet
constexpr double rule_mm = 0.3;     // what a ruled line adds
constexpr double box_mm = 6.0;      // of a caution: padding, frame and space round it
constexpr double spaces_mm = 12.0;  // between the parts of a sheet, and a reserve

struct Sizes {
  double width, height;
};

Sizes page_of(Paper paper, bool landscape) {
  const Sizes upright = paper == Paper::a4 ? Sizes{210.0, 297.0} : Sizes{215.9, 279.4};
  const Sizes turned =
      landscape ? Sizes{upright.height, upright.width} : Sizes{upright.width, upright.height};
  return {turned.width - 2.0 * gauging_margin_mm, turned.height - 2.0 * gauging_margin_mm};
}

double lines_mm(std::string_view text, double width_mm, double pt) {
  if (text.empty()) return 0.0;
  const std::size_t lines = wrap(text, width_mm, mm(pt)).size();
  return static_cast<double>(lines) * mm(pt) * text_leading;
}

// The widest figure of each column decides: every column is given as much.
double figure_width_mm(const GaugingTable& table, double size_mm) {
  std::size_t most = 0;
  const std::size_t measures = table.measures.size();
  for (std::size_t m = 0; m < measures; ++m) {
    double largest = 0.0;
    for (std::size_t i = m; i < table.figures.size(); i += measures) {
      largest = std::max(largest, table.figures[i]);
    }
    most = std::max(most, units::fixed(largest, table.measures[m].decimals).size());
  }
  return text_width_mm(std::string(most, '0'), size_mm);
}

double heads_width_mm(const Heads& heads, double size_mm, Weight weight) {
  double most = 0.0;
  for (const std::size_t i : {std::size_t{0}, heads.figures.size() - 1}) {
    most = std::max(most, text_width_mm(with_minus(head_of(heads, i)), size_mm, weight));
  }
  return most;
}

// Height of the head of the columns, which wrap when they are words.
double column_heads_mm(const GaugingTable& table, units::System system, double size_mm,
                       double column_mm) {
  double most = 0.0;
  if (!table.columns.figures.empty()) {
    most = size_mm * text_leading + mm(across_pt) * text_leading;
    if (!second_head(table, 0, system).empty()) most += size_mm * small_head * text_leading;
    return most;
  }
  const double small = size_mm * small_head;
  for (std::size_t column = 0; column < table.width(); ++column) {
    const std::size_t lines =
        wrap(column_head(table, column), column_mm - gap * small, small).size();
    most = std::max(most, static_cast<double>(lines) * small * text_leading);
  }
  return most;
}

// Rows parted into groups that begin at a five.
std::vector<Span> fives_of(const Heads& heads) {
  std::vector<Span> groups;
  for (std::size_t i = 0; i < heads.figures.size(); ++i) {
    if (groups.empty() || begins_five(heads, i)) groups.push_back({i, i});
    groups.back().last = i + 1;
  }
  return groups;
}

// Whole groups on as few sheets as hold them, shared out evenly. `most` rows fit one sheet; a
// group larger than that cannot be.
std::vector<Span> shared_rows(const std::vector<Span>& groups, std::size_t most) {
  std::size_t rows = 0;
  for (const Span& group : groups) rows += group.size();
  for (std::size_t sheets = (rows + most - 1) / most;; ++sheets) {
    const double target = static_cast<double>(rows) / static_cast<double>(sheets);
    std::vector<Span> parts{{0, 0}};
    for (const Span& group : groups) {
      Span& part = parts.back();
      const bool full = part.size() > 0 && group.last - part.first > most;
      // Past its share when the middle of the group lies beyond the end of the sheet.
      const double middle = static_cast<double>(group.first + group.last) / 2.0;
      const bool enough = part.size() > 0 && parts.size() < sheets &&
                          middle > target * static_cast<double>(parts.size());
      if (full || enough) {
        parts.push_back(group);
      } else {
        part.last = group.last;
      }
    }
    if (parts.size() <= sheets) return parts;
  }
}

std::vector<Span> shared_columns(std::size_t columns, std::size_t most) {
  const std::size_t sheets = (columns + most - 1) / most;
  std::vector<Span> parts;
  for (std::size_t i = 0; i < sheets; ++i) {
    parts.push_back({columns * i / sheets, columns * (i + 1) / sheets});
  }
  return parts;
}

std::size_t largest(const std::vector<Span>& parts) {
  std::size_t most = 0;
  for (const Span& part : parts) most = std::max(most, part.size());
  return most;
}

// The words round the table, whose height no size of the figures changes.
double words_mm(const GaugingWords& words, std::string_view name, double width_mm) {
  double height = lines_mm(words.title, width_mm, title_pt) +
                  lines_mm(words.subtitle, width_mm, subtitle_pt) +
                  lines_mm(name, width_mm, subtitle_pt) +
                  lines_mm(words.about, width_mm, about_pt);
  height += 2.0 * mm(example_pt) * text_leading;
  std::string notes;
  for (const std::string& note : words.notes) notes += (notes.empty() ? "" : " ") + note;
  // The number of the sheet goes on at the end of the notes.
  height += lines_mm(notes + " Sheet 999 of 999.", width_mm, notes_pt);
  if (words.caution) {
    constexpr double frame_mm = 9.0;
    height += box_mm + lines_mm(fmt::format("{}: {}", words.caution->word, words.caution->text),
                                width_mm - frame_mm, about_pt);
  }
  return height + spaces_mm;
}

struct Problem {
  const GaugingTable& table;
  const std::vector<Span>& fives;
  units::System system;
  double words_mm;
};

// The table on this paper with figures of this size, or nothing when not one column or one
// group of rows fits.
std::optional<GaugingLayout> laid_out(const Problem& problem, Paper paper, bool landscape,
                                      double type_pt) {
  const GaugingTable& table = problem.table;
  const Sizes page = page_of(paper, landscape);
  const double size = mm(type_pt);
  const double head = heads_width_mm(table.rows, size, Weight::bold) + gap * size;
  double needed = figure_width_mm(table, size);
  if (!table.columns.figures.empty()) {
    needed = std::max(needed, heads_width_mm(table.columns, size, Weight::regular));
  } else {
    // A word of a head must fit as well.
    for (std::size_t column = 0; column < table.width(); ++column) {
      for (const std::string& word : wrap(column_head(table, column), 0.0, size * small_head)) {
        needed = std::max(needed, text_width_mm(word, size * small_head));
      }
    }
  }
  needed += gap * size;
  const double across = (page.width - 2.0 * head) / needed;
  if (!(across >= 1.0)) return std::nullopt;
  const auto columns = shared_columns(table.width(), static_cast<std::size_t>(across));
  const double width = std::min(
      (page.width - 2.0 * head) / static_cast<double>(largest(columns)), needed * widest);

  const double left = page.height - problem.words_mm -
                      column_heads_mm(table, problem.system, size, width) - 3.0 * rule_mm;
  const double each = size * tight_row + rule_mm / 5.0;
  const std::size_t most = left > each ? static_cast<std::size_t>(left / each) : 0;
  if (most < largest(problem.fives)) return std::nullopt;
  const auto rows = shared_rows(problem.fives, most);
  const double row =
      std::min(left / static_cast<double>(largest(rows)) - rule_mm / 5.0, size * loose_row);
  return GaugingLayout{landscape, page.width, page.height, type_pt, row,
                       head,      width,      rows,        columns};
}

}  // namespace

bool begins_five(const Heads& heads, std::size_t i) {
  if (heads.figures.size() < 2) return i == 0;
  const double five = 5.0 * (heads.figures[1] - heads.figures[0]);
  const double groups = heads.figures[i] / five;
  const double offset = heads.figures[0] / (five / 5.0);
  const bool on_steps = std::abs(offset - std::round(offset)) < 1e-6;
  const double last = heads.figures.back() / (five / 5.0);
  const bool even =
      std::abs(last - offset - static_cast<double>(heads.figures.size() - 1)) < 1e-6;
  if (!on_steps || !even) return i % 5 == 0;
  return std::abs(groups - std::round(groups)) < 1e-6;
}

std::string column_head(const GaugingTable& table, std::size_t column) {
  if (!table.columns.figures.empty()) return head_of(table.columns, column);
  const spirit::Measure& measure = table.measures[column];
  return fmt::format("{}, {}", measure.quantity, measure.unit);
}

std::string second_head(const GaugingTable& table, std::size_t column, units::System system) {
  if (system != units::System::both || table.columns.figures.empty() ||
      table.columns.unit != "°C") {
    return {};
  }
  const double fahrenheit =
      units::Temperature::celsius(table.columns.figures[column]).fahrenheit();
  return fmt::format("{} °F", number(fahrenheit, 1));
}

GaugingLayout layout_of(const GaugingTable& table, const GaugingWords& words,
                        std::string_view name, units::System system, Paper paper,
                        double least_pt) {
  base::ensure(table.height() > 0 && table.width() > 0, "a table to print has cells");
  const std::vector<Span> fives = fives_of(table.rows);
  std::optional<GaugingLayout> best;
  for (const bool landscape : {false, true}) {
    const Problem problem{table, fives, system,
                          words_mm(words, name, page_of(paper, landscape).width)};
    // From large to small: fewer sheets count more than larger figures, down to the least size;
    // below it the first size that fits at all is taken.
    std::optional<GaugingLayout> here;
    for (double pt = largest_type_pt; pt >= least_type_pt; pt -= 0.5) {
      if (here && pt < least_pt) break;
      const auto made = laid_out(problem, paper, landscape, pt);
      if (made && (!here || made->sheets() < here->sheets())) here = made;
    }
    if (!here) continue;
    const auto rank = [](const GaugingLayout& layout) {
      return std::pair(layout.sheets(), -layout.type_pt);
    };
    if (!best || rank(*here) < rank(*best)) best = here;
  }
  if (!best) {
    throw base::InputError("columns", fmt::format("{}", table.width()),
                           "fewer or shorter figures: these do not fit on the paper");
  }
  return *best;
}

}  // namespace lynearm::sheet
