// lynearm table: the maker's own gauging tables, computed from their instrument, range and
// steps, for the wall of the still house, for a spreadsheet, or for the terminal.
#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "cli/commands.hpp"
#include "cli/table.hpp"
#include "cli/table_input.hpp"
#include "cli/table_text.hpp"
#include "cli/text_file.hpp"
#include "sheet/gauging_sheet.hpp"
#include "wire/gauging_table.hpp"

namespace lynearm::cli {
namespace {

using spirit::GaugingTable;
using spirit::TableKind;

GaugingTable made(const AskedTable& asked) {
  switch (asked.kind) {
    case TableKind::correction:
      return spirit::correction_table(asked.rows, asked.temperatures, asked.figure_scale,
                                      asked.glass);
    case TableKind::showing:
      return spirit::showing_table(asked.rows, asked.temperatures, asked.figure_scale,
                                   asked.glass);
    case TableKind::reduction:
      return spirit::reduction_table(asked.rows, asked.to, asked.portion, asked.portion_text,
                                     asked.water);
    case TableKind::volume:
      return spirit::volume_table(asked.rows, asked.temperatures, asked.reference);
    case TableKind::density:
      return spirit::density_table(asked.rows, asked.temperatures, asked.system);
    case TableKind::mass:
      return spirit::mass_table(asked.rows, asked.system);
  }
  throw base::BrokenInvariant("a kind of table we know");
}

GaugingTable filled(const AskedTable& asked) {
  GaugingTable table = made(asked);
  const bool any = std::any_of(table.cells.begin(), table.cells.end(),
                               [](spirit::Cell cell) { return cell == spirit::Cell::filled; });
  if (!any) {
    throw base::InputError("from", "",
                           asked.kind == TableKind::reduction
                               ? "strengths above those of the columns"
                               : "a range in which some spirit gives a figure");
  }
  if (asked.decimals) {
    for (spirit::Measure& measure : table.measures) measure.decimals = *asked.decimals;
  }
  return table;
}

// How a cell comes about, and how far it is to be trusted.
std::string_view cell_of(TableKind kind) {
  switch (kind) {
    case TableKind::correction:
      return "the density in which the glass shows the reading at that temperature, and the "
             "one "
             "mixture that has it there; told on the scale of the figures.";
    case TableKind::showing:
      return "the density of that mixture at that temperature, and the mark at which the glass "
             "floats in it.";
    case TableKind::reduction:
      return "mass of the spirit times its share of ethanol over the share wanted, less the "
             "mass "
             "of the spirit. A volume of water is that mass over its density at 20 °C.";
    case TableKind::volume:
      return "density at the temperature over density at the reference; the vessel's own "
             "expansion is left out.";
    case TableKind::density:
      return "density of the mixture at that temperature; in US units its weight in air.";
    case TableKind::mass:
      return "densities at the scale's reference, and the share of ethanol.";
  }
  return "";
}

std::string because(const GaugingTable& table) {
  std::vector<Ground> all{
      {"Each figure", std::string(cell_of(table.kind))},
      {"Sources",
       "OIML R 22 (1973), general formula of density, -20 to 40 °C; proof and "
       "60 °F strength by 27 CFR 30.11."}};
  if (table.kind == TableKind::correction || table.kind == TableKind::showing) {
    all.push_back(
        {"Glass", fmt::format("grows by {:g} of its volume a kelvin (soda-lime glass: "
                              "OIML R 44, 1985).",
                              table.glass.glass_expansion_per_K)});
  }
  all.push_back({"Uncertainty",
                 "of the figures, below their last digit. What the reading and the thermometer "
                 "add, gauge --why tells for each."});
  all.push_back(
      {"Standing",
       "computed from the definitions, not a printed official table: where an authority "
       "prescribes its own, that one counts."});
  return grounds(all);
}

bool to_standard_output(const std::optional<std::string>& path) {
  return path.has_value() && *path == "-";
}

std::string run(Arguments& arguments, const Look& look) {
  const AskedTable asked = asked_table(arguments, look);
  const GaugingTable table = filled(asked);
  std::optional<sheet::GaugingSheets> sheets;
  if (asked.html_path) sheets = sheet::gauging_sheets(table, asked.paper);
  const std::string csv = asked.csv_path ? wire::csv(table) : std::string();

  std::string told;
  if (sheets && !to_standard_output(asked.html_path)) {
    write_file(*asked.html_path, sheets->html);
    const std::size_t count = sheets->layout.sheets();
    told += fmt::format("To print on {} {} of {}{}, figures {:g} pt: {}.\n", count,
                        count == 1 ? "sheet" : "sheets",
                        asked.paper.paper == sheet::Paper::a4 ? "A4" : "Letter",
                        sheets->layout.landscape ? ", landscape" : "", sheets->layout.type_pt,
                        *asked.html_path);
  }
  if (asked.csv_path && !to_standard_output(asked.csv_path)) {
    write_file(*asked.csv_path, csv);
    told += fmt::format("As CSV: {}.\n", *asked.csv_path);
  }
  if (to_standard_output(asked.csv_path)) return csv;
  if (to_standard_output(asked.html_path)) return sheets->html;
  if (look.json) return wire::json(table) + "\n";
  const std::string text =
      told.empty() ? table_text(table, look) : table_headline(table, look) + told;
  return text + (arguments.has("--why") ? because(table) : std::string());
}

}  // namespace

Command table_command() {
  return {
      "table",
      "gauging tables of your own, to hang on the wall, as CSV or here",
      table_options(),
      {R"(--of correction --from "60 %vol" --to "70 %vol")",
       "True strength, in % by volume at 20 °C, by reading and temperature: 11 x 11 figures."},
      "Kinds of table\n"
      "  correction  true strength from what the glass reads, at a temperature\n"
      "  showing     what the glass shows at a temperature when the spirit has that strength\n"
      "  reduction   water that brings spirit from one strength to another\n"
      "  volume      a measured volume, brought to 20 °C or 60 °F\n"
      "  density     what a litre (US: a gallon) weighs at a temperature\n"
      "  mass        by strength: weight, volume and pure alcohol of one another\n"
      "Rows and columns left out make a table for the wall. --units us: proof, °F, gallons "
      "and\n"
      "pounds; both: °F under °C. Without --html or --csv the table is printed here.\n"
      "\n"
      "CSV: one head line, then a line for each row. The first head says what rows and "
      "figures\n"
      "are and their source, the others carry their unit (\"10 C\"). A cell without a figure "
      "is\n"
      "empty. At most 2,000,000 cells; on paper 50,000.\n"
      "\n"
      "Density by OIML R 22 (1973), -20 to 40 °C. Derived by computation: where an authority\n"
      "prescribes its own printed table, that one counts. Sugar or wood extract in the spirit\n"
      "is not known of.\n"
      "Caution: spirit above 40 °C at the spout means vapour may be escaping: heat off.\n"
      "\n"
      "More worked lines\n"
      "  lynearm table --of correction --html wall.html --name \"Tern Island, glass no. 3\"\n"
      "  lynearm table --of correction --units us --paper Letter --html wall.html\n"
      "  lynearm table --of showing --from \"50 %vol\" --to \"60 %vol\" --step \"0.5 %vol\"\n"
      "  lynearm table --of reduction --columns \"40 %vol, 43 %vol, 46 %vol\" --per \"10 L\" "
      "--water kg\n",
      run,
  };
}

}  // namespace lynearm::cli
