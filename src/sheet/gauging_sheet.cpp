#include "sheet/gauging_sheet.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "sheet/gauging_dress.hpp"
#include "sheet/gauging_words.hpp"
#include "sheet/letter.hpp"

namespace lynearm::sheet {
namespace {

using spirit::GaugingTable;

// One sheet: which part of the table, and which of how many.
struct Part {
  Span rows;
  Span columns;
  std::size_t sheet = 0;
  std::size_t sheets = 0;
};

// What all sheets share.
struct Setting {
  const GaugingTable& table;
  const GaugingWords& words;
  const GaugingPaper& paper;
};

std::string corner(const GaugingTable& table) {
  if (table.rows.unit.empty()) return table.rows.quantity;
  return fmt::format("{}, {}", table.rows.quantity, table.rows.unit);
}

void write_columns(Writer& out, const Setting& setting, const Part& part) {
  out.open("colgroup").leaf("col", {{"class", "head"}});
  for (std::size_t i = 0; i < part.columns.size(); ++i) {
    out.leaf("col", {{"class", "figure"}});
  }
  out.leaf("col", {{"class", "head"}}).close();

  const GaugingTable& table = setting.table;
  const bool two = !table.columns.figures.empty();
  const Attributes corner_of{{"class", "corner"}, {"rowspan", two ? "2" : "1"}};
  out.open("thead").open("tr").element("th", corner_of, corner(table));
  if (two) {
    out.element("th", {{"class", "across"}, {"colspan", std::to_string(part.columns.size())}},
                across(table));
  } else {
    for (std::size_t c = part.columns.first; c < part.columns.last; ++c) {
      out.element("th", {{"class", "word"}, {"scope", "col"}}, column_head(table, c));
    }
  }
  out.element("th", corner_of, corner(table)).close();
  if (two) {
    out.open("tr");
    for (std::size_t c = part.columns.first; c < part.columns.last; ++c) {
      out.open("th", {{"scope", "col"}}).text(with_minus(column_head(table, c)));
      const std::string second = second_head(table, c, setting.paper.system);
      if (!second.empty()) out.element("span", {}, with_minus(second));
      out.close();
    }
    out.close();
  }
  out.close();
}

void write_rows(Writer& out, const GaugingTable& table, const Part& part) {
  out.open("tbody");
  for (std::size_t row = part.rows.first; row < part.rows.last; ++row) {
    const std::string head = with_minus(head_of(table.rows, row));
    if (begins_five(table.rows, row)) {
      out.open("tr", {{"class", "five"}});
    } else {
      out.open("tr");
    }
    out.element("th", {{"scope", "row"}}, head);
    for (std::size_t c = part.columns.first; c < part.columns.last; ++c) {
      out.element("td", {}, with_minus(figure_of(table, row, c)));
    }
    out.element("th", {{"aria-hidden", "true"}}, head).close();
  }
  out.close();
}

void write_foot(Writer& out, const Setting& setting, const Part& part) {
  out.open("footer");
  const std::string example = example_of(setting.table, part.rows, part.columns);
  if (!example.empty()) out.element("p", {{"class", "example"}}, with_minus(example));
  if (setting.words.caution) {
    out.open("div", {{"class", "caution"}, {"role", "note"}});
    out.element("strong", {}, fmt::format("{}: ", setting.words.caution->word));
    out.text(setting.words.caution->text).close();
  }
  std::string notes;
  for (const std::string& note : setting.words.notes) notes += note + " ";
  notes += fmt::format("Sheet {} of {}.", part.sheet, part.sheets);
  out.element("p", {{"class", "notes"}}, with_minus(notes)).close();
}

void write_sheet(Writer& out, const Setting& setting, const Part& part) {
  const GaugingWords& words = setting.words;
  out.open("section").open("header").element("h1", {}, words.title);
  out.element("p", {{"class", "sub"}}, words.subtitle);
  if (!setting.paper.name.empty()) {
    out.element("p", {{"class", "name"}}, setting.paper.name);
  }
  out.element("p", {{"class", "about"}}, words.about).close();
  out.open("div", {{"class", "wide"}}).open("table");
  write_columns(out, setting, part);
  write_rows(out, setting.table, part);
  out.close().close();
  write_foot(out, setting, part);
  out.close();
}

}  // namespace

GaugingSheets gauging_sheets(const GaugingTable& table, const GaugingPaper& paper) {
  if (table.figures.size() > most_printed_cells) {
    throw base::InputError("table", fmt::format("{} cells", table.figures.size()),
                           fmt::format("at most {} cells on paper", most_printed_cells));
  }
  const GaugingWords words = words_of(table);
  const GaugingLayout layout =
      layout_of(table, words, paper.name, paper.system, paper.paper, paper.least_pt);
  const Setting setting{table, words, paper};
  Writer out;
  out.open("html", {{"lang", "en"}}).open("head").leaf("meta", {{"charset", "utf-8"}});
  out.leaf("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  out.element("title", {}, fmt::format("{}: {}", words.title, words.subtitle));
  out.open("style").html(gauging_dress(table, layout, paper.paper)).close().close();
  out.open("body");
  std::size_t sheet = 0;
  for (const Span& rows : layout.rows) {
    for (const Span& columns : layout.columns) {
      write_sheet(out, setting, {rows, columns, ++sheet, layout.sheets()});
    }
  }
  out.close().close();
  return {"<!DOCTYPE html>\n" + out.finish().text + "\n", layout};
}

}  // namespace lynearm::sheet
