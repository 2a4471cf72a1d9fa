#include "delimited/reader.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace lynearm::delimited {
namespace {

// A name fit for a sentence: short, without control characters.
bool is_presentable(std::string_view name) {
  constexpr std::size_t most = 60;
  return !name.empty() && name.size() <= most &&
         std::none_of(name.begin(), name.end(), [](char c) {
           const auto byte = static_cast<unsigned char>(c);
           return byte < 0x20 || byte == 0x7F;
         });
}

bool is_utf_16(std::string_view text) {
  return text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF");
}

}  // namespace

void Reader::finish() {
  finished_ = true;
  scanner_.finish();
}

const Head* Reader::head() {
  if (head_) return &*head_;
  switch (scanner_.next()) {
    case Scanner::Found::row:
      break;
    case Scanner::Found::fault:
      throw base::InputError({fault()});
    case Scanner::Found::nothing:
      if (!finished_) return nullptr;
      throw base::InputError(
          {{"head line", "", "a first line that names the columns", file_, 1}});
  }
  const std::vector<std::string_view>& cells = scanner_.cells();
  if (is_utf_16(cells.front())) {
    throw base::InputError(
        {{"encoding of the text", "UTF-16", "UTF-8", file_, scanner_.line()}});
  }
  head_ = Head{scanner_.line(), {cells.begin(), cells.end()}};
  return &*head_;
}

std::optional<Row> Reader::next() {
  if (head() == nullptr) return std::nullopt;
  const Scanner::Found found = scanner_.next();
  if (found == Scanner::Found::nothing) return std::nullopt;
  if (found == Scanner::Found::fault) return Row{scanner_.malformed().line, {}, fault()};
  const std::size_t columns = head_->columns.size();
  const std::size_t cells = scanner_.cells().size();
  if (cells == columns) return Row{scanner_.line(), scanner_.cells(), {}};
  return Row{scanner_.line(),
             {},
             base::Fault{"number of cells", fmt::format("{}", cells),
                         fmt::format("{}, one for each column of the head line", columns),
                         file_, scanner_.line()}};
}

std::string Reader::words_for(std::size_t cell) const {
  const bool named = head_ && cell < head_->columns.size();
  if (named && is_presentable(head_->columns[cell])) return "column " + head_->columns[cell];
  return fmt::format("cell {}", cell + 1);
}

base::Fault Reader::fault() const {
  const Malformed& bad = scanner_.malformed();
  const std::string cell = words_for(bad.cell);
  const auto told = [&](std::string field, std::string value, std::string accepted) {
    return base::Fault{std::move(field), std::move(value), std::move(accepted), file_,
                       bad.line};
  };
  const auto too_long = [&](const std::string& what, std::size_t most) {
    return told("length of " + what, fmt::format("more than {} bytes", most),
                fmt::format("at most {} bytes", most));
  };
  switch (bad.what) {
    case Malformed::What::stray_mark:
      return told(cell, bad.text,
                  "quote marks only around a whole cell, and doubled inside a quoted one");
    case Malformed::What::unclosed:
      return told(cell, bad.text,
                  fmt::format("a closing quote mark within {} bytes", limits_.cell_bytes));
    case Malformed::What::lone_return:
      return told(cell, bad.text, "line ends of LF or CRLF, and CR only inside quote marks");
    case Malformed::What::long_cell:
      return too_long(cell, limits_.cell_bytes);
    case Malformed::What::long_row:
      return too_long("the row", limits_.row_bytes);
  }
  throw base::BrokenInvariant("a row is malformed in a way we know");
}

}  // namespace lynearm::delimited
