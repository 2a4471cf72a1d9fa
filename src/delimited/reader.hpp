// A table of comma-separated text, row by row as the text comes in: fed with pieces of any
// size, it hands out each row as soon as its line has ended, with the number of that line.
//
// Model: RFC 4180 with a head line, UTF-8; the grammar is in scanner.hpp. A bad row is told and
// reading goes on with the next line: a forgotten quote mark costs a row, not the file. Memory
// is bounded by the limits. Leaves out separators other than the comma, comments, and what the
// cells mean. Opens no file: its name is only for the faults.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "delimited/scanner.hpp"

namespace lynearm::delimited {

/// The names of the columns.
struct Head {
  int line = 0;  ///< 1-based
  std::vector<std::string> columns;
};

/// One row: as many cells as the head has columns, or the fault that it has instead.
struct Row {
  int line = 0;                             ///< on which it begins, 1-based
  std::span<const std::string_view> cells;  ///< good until the reader is next called
  std::optional<base::Fault> fault;         ///< with file and line; cells is empty then
};

class Reader {
 public:
  /// file      what the faults call the text; may be empty
  explicit Reader(std::string file, Limits limits = {})
      : file_(std::move(file)), limits_(limits), scanner_(limits) {}

  /// More of the text, from a byte to many lines. Rows not yet taken stay.
  void feed(std::string_view text) { scanner_.feed(text); }
  /// There is no more text: what was begun is now a row or a fault.
  void finish();

  /// The head line; nullptr while its end has not come in.
  /// throws     InputError when it is malformed, UTF-16, or the text ended without one
  [[nodiscard]] const Head* head();

  /// The next row under the head, or nothing: more text is needed; after finish(), all is read.
  /// The rows are the same however the text was cut into pieces.
  ///
  /// throws     InputError as head() does
  /// accuracy   the same rows as Python's csv module, over random tables in each of its ways of
  ///            quoting (tests/delimited/same_rows_test.py)
  /// source     RFC 4180 (2005), section 2
  [[nodiscard]] std::optional<Row> next();

  /// Bytes of text held: at most the row being read and what was fed behind it.
  [[nodiscard]] std::size_t held() const { return scanner_.held(); }

 private:
  [[nodiscard]] base::Fault fault() const;
  [[nodiscard]] std::string words_for(std::size_t cell) const;

  std::string file_;
  Limits limits_;
  Scanner scanner_;
  std::optional<Head> head_;
  bool finished_ = false;
};

}  // namespace lynearm::delimited
