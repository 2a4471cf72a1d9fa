// A page to print: one HTML text that needs nothing else, no script, no font, no picture from
// outside. Set like a gauging book: a serif face, figures in columns, thin rules, black on
// white; nothing is said by colour alone.
//
// The parts come as Html and are joined with +. Running head and page number use the margin
// boxes of CSS paged media; a browser without them prints the page without those two lines.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sheet/letter.hpp"
#include "sheet/svg.hpp"
#include "sheet/table.hpp"

namespace lynearm::sheet {

enum class Paper { a4, letter };

struct Page {
  std::string title;
  std::string subtitle = {};
  std::string running_head = {};  ///< at the top of each page but the first
  std::string running_foot = {};  ///< at the foot of each page, left of its number
  Paper paper = Paper::a4;
  std::string language = "en";
};

/// Width of the text on either paper: the widest a drawing may be.
inline constexpr double text_width_of_page_mm = 170.0;

[[nodiscard]] Html heading(std::string_view text);
[[nodiscard]] Html subheading(std::string_view text);
[[nodiscard]] Html paragraph(std::string_view text);
/// A sentence set smaller: where a figure comes from, what a table leaves out.
[[nodiscard]] Html small_print(std::string_view text);

/// Framed, and opened by a bold word: "Caution", "Fire", "Poison".
[[nodiscard]] Html caution(std::string_view word, std::string_view text);

/// Boxes to tick.
[[nodiscard]] Html checklist(const std::vector<std::string>& entries);

/// Names and figures in one or two columns, for the top of a sheet.
[[nodiscard]] Html facts(const std::vector<std::pair<std::string, std::string>>& entries);

/// Ruled lines to write on.
[[nodiscard]] Html lines_to_write(std::string_view name, int count);

[[nodiscard]] Html figure(const Drawing& drawing, std::string_view caption);

/// Side by side on paper, one under the other on a phone.
[[nodiscard]] Html beside(const Html& left, const Html& right);

/// Not broken over two pages.
[[nodiscard]] Html kept_together(const Html& part);

[[nodiscard]] Html page_break();

/// The finished text of the file.
[[nodiscard]] std::string page(const Page& page, const Html& body);

}  // namespace lynearm::sheet
