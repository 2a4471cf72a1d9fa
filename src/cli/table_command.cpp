// lynearm table: the maker's own gauging tables, computed from their instrument, range and
// steps, for the wall of the still house, for a spreadsheet, or for the terminal.
#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "cli/commands.hpp"
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
  return told.empty() ? table_text(table, look) : table_headline(table, look) + told;
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
