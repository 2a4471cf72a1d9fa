#include "sheet/gauging_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "spirit/density.hpp"
#include "spirit/marks.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {
namespace {

using spirit::Cell;
using spirit::GaugingTable;
using spirit::Heads;
using spirit::Measure;
using spirit::Scale;
using spirit::TableKind;

// "20 °C", "60 °F": as the trade calls it.
std::string called(units::Temperature t) {
  const double fahrenheit = t.fahrenheit();
  const bool round_in_fahrenheit = std::abs(fahrenheit - std::round(fahrenheit)) < 1e-6;
  const double celsius = t.celsius();
  const bool round_in_celsius = std::abs(celsius - std::round(celsius)) < 1e-6;
  return round_in_fahrenheit && !round_in_celsius ? fmt::format("{:.0f} °F", fahrenheit)
                                                  : units::concise(t);
}

Scale scale_of_glass(const GaugingTable& table) {
  return table.kind == TableKind::correction ? table.row_scale : table.figure_scale;
}

bool of_a_glass(const GaugingTable& table) {
  return table.kind == TableKind::correction || table.kind == TableKind::showing;
}

bool in_proof(const GaugingTable& table) {
  return table.row_scale == Scale::us_proof || table.figure_scale == Scale::us_proof ||
         (table.kind == TableKind::mass && table.in_air);
}

// "% by volume at 20 °C", "US proof", "density at 20 °C".
std::string strength_words(Scale scale) { return std::string(spirit::words(scale)); }

std::string with_unit(const std::string& figure, const std::string& unit) {
  return unit.empty() ? figure : fmt::format("{} {}", figure, unit);
}

std::string instrument(const GaugingTable& table) {
  const Scale scale = scale_of_glass(table);
  const std::string reference =
      called(table.glass.reference.value_or(spirit::reference_of(scale)));
  std::string marks = strength_words(scale);
  return fmt::format(
      "Glass hydrometer marked in {}, true at {}; its glass grows by {:g}e-6 of its volume a "
      "kelvin. Let glass and spirit come to one temperature, and read where the level surface "
      "cuts the stem.",
      marks, reference, std::round(table.glass.glass_expansion_per_K * 1e10) / 1e4);
}

std::string title(const GaugingTable& table) {
  switch (table.kind) {
    case TableKind::correction:
      return spirit::of_density(table.figure_scale) ? "True density" : "True strength";
    case TableKind::showing:
      return "What the glass shows";
    case TableKind::reduction:
      return "Water for reduction";
    case TableKind::volume:
      return fmt::format("Volume at {}", called(table.reference));
    case TableKind::density:
      return table.in_air ? "What a gallon weighs" : "What a litre weighs";
    case TableKind::mass:
      return "From weight to volume and pure alcohol";
  }
  return {};
}

std::string subtitle(const GaugingTable& table) {
  const Measure& measure = table.measures.front();
  const std::string rows = strength_words(table.row_scale);
  switch (table.kind) {
    case TableKind::correction:
      return fmt::format("in {}, by reading and temperature",
                         strength_words(table.figure_scale));
    case TableKind::showing:
      return fmt::format("in spirit of a true strength in {}, by its temperature", rows);
    case TableKind::reduction:
      return fmt::format("{}, in {}; from a strength (rows, {}) down to one (columns, {})",
                         measure.quantity, measure.unit, rows,
                         strength_words(table.figure_scale));
    case TableKind::volume:
      return fmt::format("multiply the measured volume by this; true strength in {}", rows);
    case TableKind::density:
      return fmt::format("in {}, by true strength in {} and temperature",
                         table.in_air ? "pounds, in air" : "kilograms", rows);
    case TableKind::mass:
      return fmt::format("by true strength in {}", rows);
  }
  return {};
}

std::string about(const GaugingTable& table) {
  switch (table.kind) {
    case TableKind::correction:
    case TableKind::showing:
      return instrument(table);
    case TableKind::reduction:
      return "Spirit and water at 20 °C. Add the water to the spirit slowly, keep back the "
             "last "
             "of it, let it rest, and gauge before it goes in.";
    case TableKind::volume:
      return "For a volume read at the spirit's own temperature. The vessel's own growth is "
             "left "
             "out: that of stainless steel is 0.05 % in 10 kelvins.";
    case TableKind::density:
    case TableKind::mass:
      break;
  }
  std::string says = table.kind == TableKind::mass && table.measures.size() > 3
                         ? "Litres at 20 °C."
                         : std::string();
  if (table.in_air) {
    says += says.empty() ? "" : " ";
    says += table.kind == TableKind::mass
                ? "Gallons at 60 °F; pounds as a scale shows them in air."
                : "Pounds as a scale shows them in air.";
  } else {
    says += says.empty() ? "" : " ";
    says += "Kilograms are mass: a scale in air shows 1.1 to 1.4 g less on each.";
  }
  return says;
}

void add_range(const GaugingTable& table, std::vector<std::string>& notes) {
  notes.push_back(table.columns.figures.empty()
                      ? fmt::format("Range: {}.", range_of(table.rows))
                      : fmt::format("Range: rows {}; columns {}.", range_of(table.rows),
                                    range_of(table.columns)));
}

void add_blanks(const GaugingTable& table, std::vector<std::string>& notes) {
  std::string blank;
  const auto add = [&](Cell reason, std::string_view says) {
    if (!table.has(reason)) return;
    blank += blank.empty() ? "Blank: " : "; or ";
    blank += says;
  };
  add(Cell::no_spirit, "no ethanol and water reads so at that temperature");
  add(Cell::off_scale, "the glass has no such mark");
  add(Cell::frozen, "ice may be in it (CRC Handbook, 102nd ed.)");
  add(Cell::not_stronger, "water cannot strengthen a spirit");
  if (!blank.empty()) notes.push_back(blank + ".");
}

void add_sources(const GaugingTable& table, std::vector<std::string>& notes) {
  std::string source =
      "Source: density of ethanol and water by OIML R 22 (1973), -20 to 40 °C.";
  if (of_a_glass(table)) {
    const bool usual = table.glass.glass_expansion_per_K == spirit::soda_lime_expansion_per_K;
    source += usual ? " Glass: OIML R 44 (1985)." : " Glass: as the maker states.";
  }
  if (in_proof(table)) source += " Proof: 27 CFR 30.11, twice the % by volume at 60 °F.";
  if (table.in_air) {
    source += " Weights in air of 1.2 kg/m³ against brass, as in 27 CFR part 30.";
  }
  notes.push_back(source);
  notes.emplace_back(
      "Derived by computation by Lynearm; not a printed official table. Where an authority "
      "prescribes its own table, that one counts.");
}

std::optional<Caution> caution_of(const GaugingTable& table) {
  if (of_a_glass(table)) return cautions::vapour;
  if (table.kind == TableKind::reduction) return cautions::fire;
  return std::nullopt;
}

std::string sentence_of(const GaugingTable& table, std::size_t row, std::size_t column) {
  const std::string from = head_with_unit(table.rows, row);
  const std::string figure = figure_of(table, row, column);
  const Measure& measure = table.measure(column);
  const std::string told = with_unit(figure, measure.unit);
  const std::string at =
      table.columns.figures.empty() ? std::string() : head_with_unit(table.columns, column);
  switch (table.kind) {
    case TableKind::correction:
      return fmt::format("reads {} at {}: {} {}.", from, at, measure.quantity, told);
    case TableKind::showing:
      return fmt::format("{} at {}: the glass shows {}.", from, at, told);
    case TableKind::reduction:
      return fmt::format("from {} to {}: {} {}.", from, at, told, measure.quantity);
    case TableKind::volume:
      return fmt::format("10 L of {} at {} are {} L at {}.", from, at,
                         units::fixed(10.0 * *table.at(row, column), 3),
                         called(table.reference));
    case TableKind::density:
      return fmt::format("{} at {}: {}.", from, at, told);
    case TableKind::mass:
      return fmt::format("{}: {} {}.", from, measure.quantity, told);
  }
  return {};
}

}  // namespace

GaugingWords words_of(const GaugingTable& table) {
  GaugingWords words;
  words.title = title(table);
  words.subtitle = subtitle(table);
  words.about = about(table);
  add_range(table, words.notes);
  add_blanks(table, words.notes);
  if (of_a_glass(table)) {
    words.notes.emplace_back(
        "Sugar or wood extract in the spirit makes the glass read too low; this does not know "
        "of them.");
  }
  add_sources(table, words.notes);
  words.caution = caution_of(table);
  return words;
}

std::string example_of(const GaugingTable& table, Span rows, Span columns) {
  // Past the middle of the columns, where a figure differs from its reading; then outward.
  const std::size_t row = rows.first + rows.size() / 2;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const std::size_t column = columns.first + (columns.size() * 2 / 3 + i) % columns.size();
    for (std::size_t j = 0; j < rows.size(); ++j) {
      const std::size_t down = rows.first + (row - rows.first + j) % rows.size();
      if (table.at(down, column)) return "Example: " + sentence_of(table, down, column);
    }
  }
  return {};
}

std::string head_of(const Heads& heads, std::size_t i) {
  return units::fixed(heads.figures[i], heads.decimals);
}

std::string head_with_unit(const Heads& heads, std::size_t i) {
  return with_unit(head_of(heads, i), heads.unit);
}

std::string figure_of(const GaugingTable& table, std::size_t row, std::size_t column) {
  const std::optional<double> figure = table.at(row, column);
  return figure ? units::fixed(*figure, table.measure(column).decimals) : std::string();
}

std::string range_of(const Heads& heads) {
  const std::string ends = fmt::format("{} to {}", head_of(heads, 0),
                                       head_with_unit(heads, heads.figures.size() - 1));
  if (heads.figures.size() < 2) return head_with_unit(heads, 0);
  const double step = heads.figures[1] - heads.figures[0];
  for (std::size_t i = 2; i < heads.figures.size(); ++i) {
    const double next = heads.figures[i] - heads.figures[i - 1];
    if (std::abs(next - step) > 1e-6)
      return fmt::format("{} from {}", heads.figures.size(), ends);
  }
  return fmt::format("{} by {}", ends, units::fixed(step, heads.decimals));
}

std::string across(const GaugingTable& table) {
  if (table.columns.figures.empty()) return {};
  if (table.kind == TableKind::reduction) return fmt::format("down to, {}", table.columns.unit);
  return fmt::format("temperature of the spirit, {}", table.columns.unit);
}

}  // namespace lynearm::sheet
