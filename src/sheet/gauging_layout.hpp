// How a gauging table is laid on sheets of paper: which way up, how large its figures, which
// rows and columns on which sheet. A table on a wall is read from where one stands, so the
// figures are made as large as the least number of sheets allows.
//
// Widths are those of letter.hpp, the widest face of the stack, so that what fits here fits in
// whichever face a reader has.
#pragma once

#include <vector>

#include "sheet/gauging_words.hpp"
#include "sheet/page.hpp"
#include "units/kind.hpp"

namespace lynearm::sheet {

/// Figures no smaller than this where it can be helped: read at arm's length.
inline constexpr double arms_length_pt = 11.0;
inline constexpr double least_type_pt = 6.0;
inline constexpr double largest_type_pt = 30.0;

struct GaugingLayout {
  bool landscape = false;
  double page_width_mm = 0.0;  ///< inside the margins
  double page_height_mm = 0.0;
  double type_pt = 0.0;       ///< of the figures
  double row_mm = 0.0;        ///< height of a row
  double head_mm = 0.0;       ///< width of the row heads, on either side
  double column_mm = 0.0;     ///< width of a column where a sheet is full
  std::vector<Span> rows;     ///< of each sheet down
  std::vector<Span> columns;  ///< of each sheet across

  [[nodiscard]] std::size_t sheets() const { return rows.size() * columns.size(); }
};

/// Margin on each side of the paper.
inline constexpr double gauging_margin_mm = 10.0;
inline constexpr double points_per_mm = 72.0 / 25.4;

// Sizes of the text round the table, shared with its style sheet.
inline constexpr double title_pt = 22.0;
inline constexpr double subtitle_pt = 12.0;
inline constexpr double about_pt = 9.5;
inline constexpr double across_pt = 10.5;
inline constexpr double example_pt = 11.0;
inline constexpr double notes_pt = 7.5;
inline constexpr double text_leading = 1.3;
/// Of the head of a column that is a word rather than a figure, and of a second unit under a
/// head: against the figures.
inline constexpr double small_head = 0.62;

/// Whether row `i` begins a group of five: by its figure where the steps are even, so that 60
/// and 65 begin one, else by its place.
[[nodiscard]] bool begins_five(const spirit::Heads& heads, std::size_t i);

/// What a column is headed by: "10", or "gallons in a pound, gal/lb".
[[nodiscard]] std::string column_head(const spirit::GaugingTable& table, std::size_t column);
/// The same temperature in °F, where both units are asked for and the head is in °C; else "".
[[nodiscard]] std::string second_head(const spirit::GaugingTable& table, std::size_t column,
                                      units::System system);

/// name       the maker's own line under the title; may be empty
/// least_pt   least size of the figures; what cannot be made to fit is set smaller
[[nodiscard]] GaugingLayout layout_of(const spirit::GaugingTable& table,
                                      const GaugingWords& words, std::string_view name,
                                      units::System system, Paper paper,
                                      double least_pt = arms_length_pt);

}  // namespace lynearm::sheet
