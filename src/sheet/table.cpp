#include "sheet/table.hpp"

#include <cstddef>

#include "base/error.hpp"

namespace lynearm::sheet {

namespace {

constexpr std::size_t short_rows = 12;  // so many stay together on one page

void caption(Writer& out, const std::string& text) {
  if (!text.empty()) out.element("caption", {}, text);
}

const char* name_of(Align align) {
  switch (align) {
    case Align::right:
      return "right";
    case Align::centre:
      return "centre";
    case Align::left:
      break;
  }
  return "left";
}

// A long table breaks between rows; what stands before it in the style sheet keeps its head
// from being left alone at the foot of a page.
Html guarded(const Html& table, std::size_t rows) {
  if (rows <= short_rows) return table;
  Writer out;
  out.open("div", {{"class", "long"}}).html(table).close();
  return out.finish();
}

void blank(Writer& out, const PlannedRow& row) {
  out.open("td", {{"class", "measured"}});
  if (row.measured) {
    out.open("div", {{"class", "blank"}}).element("span", {{"class", "asks"}}, "measured");
    out.element("span", {{"class", "line"}}, "").element("span", {{"class", "unit"}}, row.unit);
    out.close();
  }
  out.close();
}

}  // namespace

Html table(const PlannedTable& planned) {
  Writer out;
  out.open("table",
           {{"class", planned.rows.size() <= short_rows ? "planned short" : "planned"}});
  caption(out, planned.caption);
  out.open("tbody");
  for (const PlannedRow& row : planned.rows) {
    out.open("tr").open("th", {{"scope", "row"}}).text(row.name);
    if (!row.note.empty()) out.element("span", {{"class", "note"}}, row.note);
    out.close();
    out.element("td", {{"class", "right"}}, row.figure);
    out.element("td", {{"class", "unit"}}, row.unit);
    blank(out, row);
    out.close();
  }
  out.close().close();
  return guarded(out.finish(), planned.rows.size());
}

Html table(const Table& table) {
  Writer out;
  std::string kind = table.room_to_write ? "roomy" : "plain";
  if (table.rows.size() <= short_rows) kind += " short";
  out.open("table", {{"class", kind}});
  caption(out, table.caption);
  out.open("thead").open("tr");
  for (const Column& column : table.columns) {
    Attributes attributes = {{"scope", "col"}, {"class", name_of(column.align)}};
    if (column.share > 0.0) {
      attributes.emplace_back("style", "width:" + number(column.share) + "%");
    }
    out.element("th", attributes, column.head);
  }
  out.close().close().open("tbody");
  for (const std::vector<std::string>& row : table.rows) {
    base::ensure(row.size() == table.columns.size(), "a row has a cell for each column");
    out.open("tr");
    for (std::size_t i = 0; i < row.size(); ++i) {
      out.element("td", {{"class", name_of(table.columns[i].align)}}, row[i]);
    }
    out.close();
  }
  out.close().close();
  return guarded(out.finish(), table.rows.size());
}

}  // namespace lynearm::sheet
