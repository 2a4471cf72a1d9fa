// A small table for people: a name, and a figure with its unit. The decimal points stand under
// each other. Text is UTF-8; each character counts as one column.
#pragma once

#include <string>
#include <vector>

namespace lynearm::cli {

struct Row {
  std::string name;
  std::string figure;  ///< as units::print() gives it: "4.50 kg (9.92 lb)"
  std::string remark{};
};

/// The rows, each indented by two and ended.
[[nodiscard]] std::string table(const std::vector<Row>& rows);

/// A name and what is to be said of it, in as many words as it takes.
struct Ground {
  std::string name;
  std::string words;
};

/// "Why", then each ground, its words wrapped beside its name.
[[nodiscard]] std::string grounds(const std::vector<Ground>& all);

/// Columns of a page of text.
inline constexpr std::size_t page_width = 100;

/// `text` in lines of `width`, without their indent; words are never broken.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, std::size_t width);

/// Words set in lines of the page, without indent.
[[nodiscard]] std::string set_in_lines(std::string_view words);

/// Columns that a text takes.
[[nodiscard]] std::size_t columns(std::string_view text);

}  // namespace lynearm::cli
