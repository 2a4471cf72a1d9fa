// How a page of text is set: headings, paragraphs, cautions and grids of figures, for every
// command that prints more than a few rows. Small tables of a name and a figure: table.hpp.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/look.hpp"
#include "sheet/batch_cautions.hpp"

namespace lynearm::cli {

enum class Side { left, right };
struct Column {
  std::string head;
  Side side = Side::right;
};

/// A grid with its heads; a left last column is wrapped where it would pass the page,
/// and a grid in both systems that is too wide has the second system below the first.
[[nodiscard]] std::string grid(const std::vector<Column>& columns,
                               const std::vector<std::vector<std::string>>& rows);

/// The name of a part.
[[nodiscard]] std::string heading(std::string_view name, const Look& look);
/// Words set in lines, indented by two.
[[nodiscard]] std::string paragraph(std::string_view words);
/// "Caution: scalds. Cooked grain clings ...".
/// place      what the page calls itself where the caution names it: "in this plan"
[[nodiscard]] std::string caution_of(const sheet::Caution& caution, std::string_view place,
                                     const Look& look);

/// A text with spaces to a width of columns, standing to one side.
[[nodiscard]] std::string padded(const std::string& text, std::size_t width, Side side);
[[nodiscard]] std::string without_trailing_spaces(std::string line);

}  // namespace lynearm::cli
