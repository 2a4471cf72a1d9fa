// A record for tests: a plan that every test shares, a book printed on paper, and the printed
// read again by its headings, captions and rows.
#pragma once

#include <string>
#include <vector>

#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "plan/tern.hpp"
#include "sheet/record_sheet.hpp"

namespace lynearm::sheet {

// The plan takes its time: made once.
struct Planned {
  plan::Recipe recipe = plan::tern::recipe_8();
  plan::Kit kit = plan::tern::kit_8();
  plan::Plan plan = plan::make(recipe, kit);
};
inline const Planned& planned() {
  static const Planned one;
  return one;
}

inline std::string printed(const journal::Book& book) {
  const journal::HouseState house = journal::fold(book.entries);
  return record_sheet({planned().recipe, planned().kit, planned().plan, house,
                       house.batches.at(*book.batch), book.entries},
                      Paper::a4);
}

// With tags left out and spaces that do not break made plain.
inline std::string read_aloud(const std::string& html) {
  std::string text;
  bool tag = false;
  for (std::size_t i = html.find("<body>"); i < html.size(); ++i) {
    if (html[i] == '<') tag = true;
    if (!tag) {
      const bool hard = html.compare(i, 2, "\u00a0") == 0;
      text += hard ? ' ' : html[i];
      if (hard) ++i;
    }
    if (html[i] == '>') tag = false, text += ' ';
  }
  return text;
}

// From one heading to the next.
inline std::string section(const std::string& html, const std::string& name) {
  const std::size_t begin = html.find("<h2>" + name);
  if (begin == std::string::npos) return {};
  return html.substr(begin, html.find("<h2>", begin + 4) - begin);
}

// The cells of the first row after `from` that begins with `name`, tags left out.
inline std::vector<std::string> row_of(const std::string& html, const std::string& name,
                                       const std::string& from = "") {
  std::vector<std::string> cells;
  const std::size_t at = html.find(">" + name + "<", html.find(from));
  if (at == std::string::npos) return cells;
  const std::size_t begin = html.rfind("<tr", at);
  const std::string row = html.substr(begin, html.find("</tr>", begin) - begin);
  for (std::size_t cell = row.find("<t", 3); cell != std::string::npos;
       cell = row.find("<t", cell + 1)) {
    const std::size_t end = row.find("</t", cell);
    std::string text = read_aloud("<body>" + row.substr(cell, end - cell));
    const std::size_t first = text.find_first_not_of(' ');
    const std::size_t last = text.find_last_not_of(' ');
    cells.push_back(first == std::string::npos ? std::string{}
                                               : text.substr(first, last - first + 1));
  }
  return cells;
}

}  // namespace lynearm::sheet
