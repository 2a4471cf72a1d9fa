#include "delimited/scanner.hpp"

#include <algorithm>
#include <limits>

namespace lynearm::delimited {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

bool ends_plain(char c) { return c == ',' || c == '\n' || c == '"' || c == '\r'; }

}  // namespace

void Scanner::feed(std::string_view text) {
  if (row_ended_) begin_row();
  text_.erase(0, row_);
  row_ = 0;
  text_ += text;
}

Scanner::Found Scanner::next() {
  if (row_ended_) begin_row();
  if (!past_byte_order_mark() || !past_faulty_line()) return Found::nothing;
  while (true) {
    const Found found = scan();
    if (found != Found::row) return found;
    row_ended_ = true;
    if (!is_empty_line()) break;
    begin_row();
  }
  unquote();
  return Found::row;
}

bool Scanner::past_byte_order_mark() {
  if (begun_) return true;
  const std::string_view text = text_;
  if (text.size() < byte_order_mark.size() && byte_order_mark.starts_with(text) && !finished_) {
    return false;
  }
  if (text.starts_with(byte_order_mark)) row_ = byte_order_mark.size();
  begun_ = true;
  return true;
}

bool Scanner::past_faulty_line() {
  if (!skipping_) return true;
  const std::size_t end = text_.find('\n', row_);
  skipping_ = end == std::string::npos;
  row_ = skipping_ ? text_.size() : end + 1;
  if (skipping_) return false;
  count_lines(1);
  row_line_ = line_;
  return true;
}

Scanner::Found Scanner::scan() {
  while (true) {
    const bool inside = state_ == State::in_plain || state_ == State::in_quoted;
    if (inside && at_ - cell_.begin > limits_.cell_bytes) return fault_of_length();
    if (at_ == available()) return finished_ ? end_of_text() : Found::nothing;
    if (at_ >= limits_.row_bytes) return fault_of_length();
    if (inside && pass_content()) continue;
    const Found found = step(text_[row_ + at_]);
    if (found != Found::nothing) return found;
  }
}

// To the next byte that means something in the cell, or to a limit. Whether it moved at all.
bool Scanner::pass_content() {
  const std::size_t stop =
      std::min({available(), cell_.begin + limits_.cell_bytes + 1, limits_.row_bytes});
  const char* const from = text_.data() + row_ + at_;
  const char* const last = text_.data() + row_ + stop;
  const char* const to = state_ == State::in_plain ? std::find_if(from, last, ends_plain)
                                                   : std::find(from, last, '"');
  if (state_ == State::in_quoted) count_lines(std::count(from, to, '\n'));
  at_ += static_cast<std::size_t>(to - from);
  return to != from;
}

// One byte that means something; Found::nothing while the row goes on.
Scanner::Found Scanner::step(char c) {
  if (state_ == State::before_cell) {
    begin_cell(c == '"');
    if (cell_.quoted) ++at_;
    return Found::nothing;
  }
  if (state_ == State::in_quoted) {
    cell_.end = at_++;
    state_ = State::after_mark;
    return Found::nothing;
  }
  if (state_ == State::in_plain) cell_.end = at_;
  ++at_;
  if (state_ == State::after_return) {
    if (c != '\n') return fault(Malformed::What::lone_return);
    return end_of_row();
  }
  switch (c) {
    case ',':
      cells_.push_back(cell_);
      state_ = State::before_cell;
      return Found::nothing;
    case '\n':
      return end_of_row();
    case '\r':
      state_ = State::after_return;
      return Found::nothing;
    case '"':
      if (state_ == State::in_plain) return fault(Malformed::What::stray_mark);
      cell_.doubled = true;
      state_ = State::in_quoted;
      return Found::nothing;
    default:
      return fault(Malformed::What::stray_mark);
  }
}

void Scanner::begin_cell(bool quoted) {
  cell_ = {.written = at_, .begin = quoted ? at_ + 1 : at_, .line = line_, .quoted = quoted};
  state_ = quoted ? State::in_quoted : State::in_plain;
}

Scanner::Found Scanner::end_of_row() {
  cells_.push_back(cell_);
  count_lines(1);
  return Found::row;
}

Scanner::Found Scanner::end_of_text() {
  if (state_ == State::in_quoted) return fault(Malformed::What::unclosed);
  if (state_ == State::before_cell) {
    if (cells_.empty()) return Found::nothing;
    begin_cell(false);  // the text ends with a comma: an empty cell
  }
  if (state_ == State::in_plain) cell_.end = at_;
  return end_of_row();
}

Scanner::Found Scanner::fault_of_length() {
  if (state_ == State::in_quoted) return fault(Malformed::What::unclosed);
  return fault(at_ >= limits_.row_bytes ? Malformed::What::long_row
                                        : Malformed::What::long_cell);
}

// The cell at fault began on a line; reading goes on behind that line, which for a forgotten
// quote mark is long before the byte at which it was noticed.
Scanner::Found Scanner::fault(Malformed::What what) {
  if (state_ == State::before_cell) begin_cell(false);
  const std::string_view rest = std::string_view(text_).substr(row_ + cell_.written);
  const std::size_t line_end = rest.find('\n');
  constexpr std::size_t enough = 256;
  const std::size_t seen = at_ - cell_.written;
  malformed_ = {what, cell_.line, cells_.size(),
                std::string(rest.substr(0, std::min({line_end, seen, enough})))};
  row_ += cell_.written;
  at_ = 0;
  line_ = cell_.line;
  skipping_ = true;
  begin_row();
  return Found::fault;
}

bool Scanner::is_empty_line() const {
  return cells_.size() == 1 && !cell_.quoted && cell_.begin == cell_.end;
}

// The cells of a whole row. Doubled quote marks become single ones where they stand.
void Scanner::unquote() {
  views_.clear();
  char* const row = text_.data() + row_;
  for (const Cell& cell : cells_) {
    char* const begin = row + cell.begin;
    char* end = row + cell.end;
    if (cell.doubled) {
      char* to = begin;
      for (const char* from = begin; from < end; ++from) {
        *to++ = *from;
        if (*from == '"') ++from;
      }
      end = to;
    }
    views_.emplace_back(begin, static_cast<std::size_t>(end - begin));
  }
}

void Scanner::begin_row() {
  row_ += at_;
  at_ = 0;
  row_line_ = line_;
  state_ = State::before_cell;
  cells_.clear();
  row_ended_ = false;
}

void Scanner::count_lines(std::ptrdiff_t lines) {
  constexpr std::ptrdiff_t most = std::numeric_limits<int>::max();  // then it stands still
  line_ = static_cast<int>(std::min(most, line_ + lines));
}

}  // namespace lynearm::delimited
