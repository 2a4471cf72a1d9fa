// A gauging table on paper: sheets to hang on the wall of a still house, each whole in itself,
// with title, instrument, heads on both sides, an example, sources and caution. One HTML text
// that needs nothing else; black on white.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "sheet/gauging_layout.hpp"
#include "sheet/page.hpp"
#include "spirit/gauging_table.hpp"

namespace lynearm::sheet {

/// More cells than this are some hundred sheets, which nobody hangs up.
inline constexpr std::size_t most_printed_cells = 50'000;

struct GaugingPaper {
  Paper paper = Paper::a4;
  units::System system = units::System::metric;  ///< `both` sets °F under °C
  std::string name = {};  ///< the maker's own line: "Tern Island, glass no. 3"
  double least_pt = arms_length_pt;
};

struct GaugingSheets {
  std::string html;
  GaugingLayout layout;
};

/// The sheets of a table.
///
/// table      at most most_printed_cells
/// throws     InputError ("table", "columns") when there are more, or they do not fit
[[nodiscard]] GaugingSheets gauging_sheets(const spirit::GaugingTable& table,
                                           const GaugingPaper& paper);

}  // namespace lynearm::sheet
