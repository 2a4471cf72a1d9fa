// What a gauging table says around its figures: title, instrument, how to read it, what the
// figures were computed from, and the caution that goes with its work. Paper and terminal take
// their sentences from here, so that they say the same.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "sheet/batch_cautions.hpp"
#include "spirit/gauging_table.hpp"

namespace lynearm::sheet {

struct GaugingWords {
  std::string title;               ///< "True strength"
  std::string subtitle;            ///< what is looked up, in a line
  std::string about;               ///< the instrument, or what the weights are
  std::vector<std::string> notes;  ///< range, blanks, sources: for the foot
  std::optional<Caution> caution;
};

[[nodiscard]] GaugingWords words_of(const spirit::GaugingTable& table);

/// A part of a table: rows and columns from `first` up to, without, `last`.
struct Span {
  std::size_t first = 0;
  std::size_t last = 0;

  [[nodiscard]] std::size_t size() const { return last - first; }
};

/// One entry of a part read aloud, near its middle: "Example: the glass reads 64 at 18 °C; true
/// strength 64.7 %vol." Empty when no cell of the part is filled.
[[nodiscard]] std::string example_of(const spirit::GaugingTable& table, Span rows,
                                     Span columns);

/// A head or a figure as it is printed.
[[nodiscard]] std::string head_of(const spirit::Heads& heads, std::size_t i);
/// With its unit: "64 %vol", "0.91 SG 20/20".
[[nodiscard]] std::string head_with_unit(const spirit::Heads& heads, std::size_t i);
/// Empty for a cell that holds no figure.
[[nodiscard]] std::string figure_of(const spirit::GaugingTable& table, std::size_t row,
                                    std::size_t column);

/// "20 to 95 %vol by 1", or "9 from 40 to 63.5 %vol" where the steps differ.
[[nodiscard]] std::string range_of(const spirit::Heads& heads);

/// What stands over the columns: "temperature of the spirit, °C"; empty where each has a name.
[[nodiscard]] std::string across(const spirit::GaugingTable& table);

}  // namespace lynearm::sheet
