// Tables of a page: figures as planned beside room for the figure as measured, and tables of
// any kind. Heads repeat on each page, rows do not break, figures stand in columns.
#pragma once

#include <string>
#include <vector>

#include "sheet/svg.hpp"

namespace lynearm::sheet {

/// One planned figure, already printed: {"Strike water", "15.5", "L"}.
struct PlannedRow {
  std::string name;
  std::string figure;
  std::string unit = {};
  bool measured = true;   ///< with a blank to write the measured figure into
  std::string note = {};  ///< under the name, small
};

struct PlannedTable {
  std::string caption;
  std::vector<PlannedRow> rows;
};

/// "Strike water   15.5 L   measured ______ L".
[[nodiscard]] Html table(const PlannedTable& planned);

enum class Align { left, right, centre };

struct Column {
  std::string head;
  Align align = Align::left;
  double share = 0.0;  ///< of the width, in percent; 0 as its content needs
};

struct Table {
  std::string caption;
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;  ///< as many cells as columns; "" is left blank
  bool room_to_write = false;                  ///< taller rows
};

/// throws   BrokenInvariant when a row has not as many cells as there are columns
[[nodiscard]] Html table(const Table& table);

}  // namespace lynearm::sheet
