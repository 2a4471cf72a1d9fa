#include "wire/gauging_table.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <string_view>
#include <utility>

#include "base/error.hpp"
#include "units/print.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {
namespace {

using spirit::Cell;
using spirit::GaugingTable;
using spirit::Heads;
using spirit::Measure;
using spirit::TableKind;

// A figure as units::fixed() writes it, but in a tenth of the time: away from a tie the scaled
// figure rounds as the figure itself does, and the rest is left to fixed().
void append_fixed(std::string& text, double value, int decimals) {
  constexpr std::array<double, 7> powers{1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6};
  const double power = powers[static_cast<std::size_t>(decimals)];
  const double scaled = value * power;
  const double whole = std::floor(scaled);
  const double part = scaled - whole;
  constexpr double tie = 0.5, near = 1e-5;
  if (!(value >= 0.0 && scaled < 1e9) || std::abs(part - tie) < near) {
    text += units::fixed(value, decimals);
    return;
  }
  const auto last_digits = static_cast<unsigned>(whole) + (part > tie ? 1U : 0U);
  const auto per_whole = static_cast<unsigned>(power);
  std::array<char, 16> digits{};
  char* end =
      std::to_chars(digits.data(), digits.data() + digits.size(), last_digits / per_whole).ptr;
  text.append(digits.data(), end);
  if (decimals == 0) return;
  text += '.';
  // The leading one keeps the zeros behind the point: 1000 + 45 is written "1045", shown "045".
  end = std::to_chars(digits.data(), digits.data() + digits.size(),
                      per_whole + last_digits % per_whole)
            .ptr;
  text.append(digits.data() + 1, end);
}

// Signs beyond ASCII that our units hold.
std::string ascii(std::string_view text) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 3> plainer{
      {{"\u00B0", ""}, {"\u00B3", "3"}, {"\u00B2", "2"}}};
  std::string out(text);
  for (const auto& [from, to] : plainer) {
    for (std::size_t at = out.find(from); at != std::string::npos; at = out.find(from, at)) {
      out.replace(at, from.size(), to);
    }
  }
  return out;
}

std::string with_unit(std::string_view what, std::string_view unit) {
  return unit.empty() ? std::string(what) : fmt::format("{} {}", what, unit);
}

std::string first_head(const GaugingTable& table) {
  std::string says = with_unit(table.rows.quantity, table.rows.unit);
  if (table.measures.size() == 1) {
    const Measure& measure = table.measures.front();
    says += fmt::format("; figures: {}", with_unit(measure.quantity, measure.unit));
  }
  if (!table.columns.figures.empty()) {
    says += fmt::format(" by {}", with_unit(table.columns.quantity, table.columns.unit));
  }
  if (table.in_air) says += "; weights in air";
  return ascii(says + "; computed from OIML R 22 (1973)");
}

std::string head_line(const GaugingTable& table) {
  std::string line = first_head(table);
  for (std::size_t column = 0; column < table.width(); ++column) {
    line += ',';
    if (table.columns.figures.empty()) {
      const Measure& measure = table.measures[column];
      line += ascii(with_unit(measure.quantity, measure.unit));
    } else {
      append_fixed(line, table.columns.figures[column], table.columns.decimals);
      line += ' ';
      line += ascii(table.columns.unit);
    }
  }
  base::ensure(line.find_first_of("\"\r\n") == std::string::npos, "a head needs no quotes");
  return line + '\n';
}

std::string_view key_of(TableKind kind) {
  switch (kind) {
    case TableKind::correction:
      return "correction";
    case TableKind::showing:
      return "showing";
    case TableKind::reduction:
      return "reduction";
    case TableKind::volume:
      return "volume";
    case TableKind::density:
      return "density";
    case TableKind::mass:
      return "mass";
  }
  return "";
}

Json json_of(const Heads& heads) {
  Json object;
  object["quantity"] = heads.quantity;
  object["unit"] = heads.unit;
  Json list = Json::array();
  for (const double head : heads.figures) list.push_back(figure(head));
  object["heads"] = std::move(list);
  return object;
}

Json json_of(const Measure& measure) {
  Json object;
  object["quantity"] = measure.quantity;
  object["unit"] = measure.unit;
  object["decimals"] = measure.decimals;
  return object;
}

Json json_of_glass(const GaugingTable& table) {
  const spirit::Scale scale =
      table.kind == TableKind::correction ? table.row_scale : table.figure_scale;
  Json object;
  object["scale"] = spirit::words(scale);
  object["true_at_C"] =
      figure(table.glass.reference.value_or(spirit::reference_of(scale)).celsius());
  object["glass_expansion_per_K"] = figure(table.glass.glass_expansion_per_K);
  return object;
}

Json blanks_of(const GaugingTable& table) {
  constexpr std::array<std::pair<Cell, std::string_view>, 4> reasons{
      {{Cell::no_spirit, "no_spirit"},
       {Cell::off_scale, "off_scale"},
       {Cell::frozen, "may_be_frozen"},
       {Cell::not_stronger, "not_stronger"}}};
  Json list = Json::array();
  for (const auto& [reason, key] : reasons) {
    if (table.has(reason)) list.push_back(key);
  }
  return list;
}

}  // namespace

std::string csv(const GaugingTable& table) {
  constexpr std::size_t bytes_of_a_cell = 8;
  std::string text = head_line(table);
  text.reserve(text.size() + bytes_of_a_cell * (table.figures.size() + 2 * table.height()));
  for (std::size_t row = 0; row < table.height(); ++row) {
    append_fixed(text, table.rows.figures[row], table.rows.decimals);
    for (std::size_t column = 0; column < table.width(); ++column) {
      text += ',';
      const std::size_t i = table.index(row, column);
      if (table.cells[i] != Cell::filled) continue;
      append_fixed(text, table.figures[i], table.measure(column).decimals);
    }
    text += '\n';
  }
  return text;
}

std::string json(const GaugingTable& table) {
  Json object;
  object["table"] = key_of(table.kind);
  if (table.kind == TableKind::correction || table.kind == TableKind::showing) {
    object["instrument"] = json_of_glass(table);
  }
  if (table.kind == TableKind::volume) {
    object["reference_C"] = figure(table.reference.celsius());
  }
  object["rows"] = json_of(table.rows);
  if (!table.columns.figures.empty()) object["columns"] = json_of(table.columns);
  Json measures = Json::array();
  for (const Measure& measure : table.measures) measures.push_back(json_of(measure));
  object["measures"] = std::move(measures);
  Json rows = Json::array();
  for (std::size_t row = 0; row < table.height(); ++row) {
    Json cells = Json::array();
    for (std::size_t column = 0; column < table.width(); ++column) {
      const std::optional<double> cell = table.at(row, column);
      cells.push_back(cell ? figure(*cell) : Json(nullptr));
    }
    rows.push_back(std::move(cells));
  }
  object["figures"] = std::move(rows);
  object["blank"] = blanks_of(table);
  object["source"] =
      "computed from the density formula of OIML R 22 (1973); not an official table";
  return object.dump();
}

}  // namespace lynearm::wire
