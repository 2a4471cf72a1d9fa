// What stands on the command line of `table`: which table, its rows and columns, and where it
// goes. What is left out is chosen so that the table is one for the wall.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/arguments.hpp"
#include "cli/command.hpp"
#include "sheet/gauging_sheet.hpp"
#include "spirit/gauging_table.hpp"

namespace lynearm::cli {

[[nodiscard]] std::vector<Option> table_options();

/// Everything asked for, with what was left out filled in.
struct AskedTable {
  spirit::TableKind kind = spirit::TableKind::correction;
  spirit::Strengths rows;
  spirit::Temperatures temperatures;  ///< of the columns, where they are that
  spirit::Strengths to;               ///< of the columns of a reduction table
  spirit::Scale figure_scale = spirit::Scale::percent_vol;
  spirit::Hydrometer glass;
  units::Temperature reference = spirit::reference_20C;
  spirit::Portion portion;
  std::string portion_text;
  spirit::WaterUnit water;
  units::System system = units::System::metric;
  std::optional<int> decimals;

  sheet::GaugingPaper paper;
  std::optional<std::string> html_path;
  std::optional<std::string> csv_path;
};

/// Reads it; notes faults in `arguments` and settles them.
/// throws     InputError with every fault
[[nodiscard]] AskedTable asked_table(Arguments& arguments, const Look& look);

}  // namespace lynearm::cli
