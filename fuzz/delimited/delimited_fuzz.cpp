// A table is anything at all, and comes in pieces of any size. However it is cut, the same rows
// and faults are found, at lines inside the text, with no more text held than the limits allow;
// and what was read is read again from what is written of it.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "delimited/reader.hpp"
#include "delimited/scanner.hpp"
#include "delimited/writer.hpp"

namespace {

using namespace lynearm;
using delimited::Scanner;

void hold(bool holds) {
  if (!holds) std::abort();  // libFuzzer keeps the text that led here
}

// What was found, one after the other.
struct Item {
  int line = 0;
  std::vector<std::string> cells;  ///< none in a fault
  std::string fault;

  bool operator==(const Item&) const = default;
};

void take(Scanner& scanner, std::vector<Item>& items) {
  for (auto found = scanner.next(); found != Scanner::Found::nothing; found = scanner.next()) {
    if (found == Scanner::Found::row) {
      items.push_back({scanner.line(), {scanner.cells().begin(), scanner.cells().end()}, {}});
    } else {
      const delimited::Malformed& bad = scanner.malformed();
      std::string words = std::to_string(static_cast<int>(bad.what)) + ' ' +
                          std::to_string(bad.cell) + ' ' + bad.text;
      items.push_back({bad.line, {}, std::move(words)});
    }
  }
}

// `seed` decides how long each piece is: 1 to 16 bytes, or all of the text where it is zero.
std::vector<Item> found(std::string_view text, delimited::Limits limits, std::uint32_t seed) {
  Scanner scanner(limits);
  std::vector<Item> items;
  while (!text.empty()) {
    const std::size_t size = seed == 0 ? text.size() : std::size_t{1} + (seed >> 28U);
    const std::string_view piece = text.substr(0, size);
    scanner.feed(piece);
    take(scanner, items);
    hold(scanner.held() <= limits.row_bytes + 3 + size);  // 3: a byte order mark
    text.remove_prefix(piece.size());
    seed = seed * 1664525U + 1013904223U;
    if (seed == 0) seed = 1;
  }
  scanner.finish();
  take(scanner, items);
  return items;
}

void same_when_written(const std::vector<Item>& items) {
  std::string text;
  std::vector<std::vector<std::string>> rows;
  for (const Item& item : items) {
    if (item.cells.empty()) continue;
    rows.push_back(item.cells);
    delimited::append_row(text,
                          std::vector<std::string_view>(item.cells.begin(), item.cells.end()));
  }
  const std::vector<Item> again = found(text, {}, 0);
  hold(again.size() == rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) hold(again[i].cells == rows[i]);
}

// A table under its head line: each row has its cells, or a fault with its place.
void as_table(std::string_view text, std::ptrdiff_t lines) {
  delimited::Reader reader("table.csv");
  reader.feed(text);
  reader.finish();
  try {
    const delimited::Head* const head = reader.head();
    hold(head != nullptr && !head->columns.empty());
    while (const auto row = reader.next()) {
      hold(row->line >= 1 && row->line <= lines);
      if (!row->fault) {
        hold(row->cells.size() == head->columns.size());
        continue;
      }
      hold(row->cells.empty() && !row->fault->accepted.empty());
      hold(row->fault->line >= 1 && row->fault->line <= lines);
    }
  } catch (const base::InputError& error) {
    hold(!error.faults().empty());
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 2) return 0;
  const delimited::Limits limits =
      data[0] % 2 == 0 ? delimited::Limits{}
                       : delimited::Limits{.cell_bytes = data[0] % 16U, .row_bytes = data[0]};
  const std::uint32_t seed = 1U + data[1] * 2654435761U;
  const std::string text(reinterpret_cast<const char*>(data) + 2, size - 2);
  const auto lines = 1 + std::count(text.begin(), text.end(), '\n');

  const std::vector<Item> whole = found(text, limits, 0);
  hold(found(text, limits, seed == 0 ? 1 : seed) == whole);
  int last = 0;
  for (const Item& item : whole) {
    hold(item.line > last || !item.fault.empty());
    hold(item.line >= 1 && item.line <= lines);
    last = item.line;
  }
  same_when_written(whole);
  as_table(text, lines);
  return 0;
}
