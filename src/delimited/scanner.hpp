// The grammar of comma-separated text, one byte after the other: cells, quote marks, line ends.
//
// Model: RFC 4180, section 2, strictly: a quote mark stands around a whole cell, and doubled
// inside it. What the RFC leaves open: LF ends a line as CRLF does, a byte order mark is passed
// over, empty lines are skipped. It keeps its place between pieces, so that no byte is looked
// at twice save those behind a fault. Leaves out what the cells mean: see reader.hpp.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace lynearm::delimited {

/// What is longer is refused, so that an unclosed quote mark does not swallow a file.
struct Limits {
  std::size_t cell_bytes = 64U << 10U;  ///< as written, without the outer quote marks
  std::size_t row_bytes = 256U << 10U;  ///< as written, with its line end
};

/// Why a row has no cells.
struct Malformed {
  enum class What {
    stray_mark,   ///< a quote mark inside a cell without quote marks, or text behind a quoted
                  ///< cell
    unclosed,     ///< a quote mark without its partner, up to the end or a limit
    lone_return,  ///< CR without LF outside quote marks
    long_cell,
    long_row,
  };
  What what = What::stray_mark;
  int line = 0;          ///< on which the cell at fault begins, 1-based
  std::size_t cell = 0;  ///< its place in the row, from 0
  std::string text;      ///< its beginning, as written: to where it went wrong or its line ends
};

class Scanner {
 public:
  explicit Scanner(Limits limits) : limits_(limits) {}

  /// More of the text, in pieces of any size.
  void feed(std::string_view text);
  /// There is no more.
  void finish() { finished_ = true; }

  enum class Found {
    row,      ///< cells() holds it
    fault,    ///< malformed() says why; the next row is the line after malformed().line
    nothing,  ///< more text is needed; after finish(): all is read
  };
  /// The next row or fault. They are the same however the text was cut.
  [[nodiscard]] Found next();

  /// The row found last, unquoted; good until next() or feed().
  [[nodiscard]] const std::vector<std::string_view>& cells() const { return views_; }
  [[nodiscard]] const Malformed& malformed() const { return malformed_; }
  /// The line on which the row found last begins, 1-based.
  [[nodiscard]] int line() const { return row_line_; }
  /// Bytes of text held: at most the row being read and what was fed behind it.
  [[nodiscard]] std::size_t held() const { return text_.size(); }

 private:
  /// What the byte to come means.
  enum class State {
    before_cell,
    in_plain,
    in_quoted,
    after_mark,    ///< a quote mark inside a quoted cell: its end, or the first of two
    after_return,  ///< CR outside quote marks: only LF may follow
  };
  /// A cell of the row being read; places are counted from the row's first byte.
  struct Cell {
    std::size_t written = 0;  ///< its first byte, the quote mark if it has one
    std::size_t begin = 0;    ///< of its content
    std::size_t end = 0;
    int line = 0;
    bool quoted = false;
    bool doubled = false;  ///< holds doubled quote marks
  };

  [[nodiscard]] std::size_t available() const { return text_.size() - row_; }
  bool past_byte_order_mark();
  bool past_faulty_line();
  Found scan();
  bool pass_content();
  Found step(char c);
  void begin_cell(bool quoted);
  Found end_of_row();
  Found end_of_text();
  Found fault_of_length();
  Found fault(Malformed::What what);
  [[nodiscard]] bool is_empty_line() const;
  void unquote();
  void begin_row();
  void count_lines(std::ptrdiff_t lines);

  Limits limits_;
  std::string text_;
  std::size_t row_ = 0;  ///< where in text_ the row being read begins
  std::size_t at_ = 0;   ///< the byte to come, counted from there
  int row_line_ = 1;
  int line_ = 1;  ///< of the byte to come
  State state_ = State::before_cell;
  Cell cell_;
  std::vector<Cell> cells_;
  std::vector<std::string_view> views_;
  Malformed malformed_;
  bool begun_ = false;      ///< the byte order mark has been looked for
  bool skipping_ = false;   ///< to the end of a faulty line
  bool row_ended_ = false;  ///< the row in cells_ is whole
  bool finished_ = false;
};

}  // namespace lynearm::delimited
