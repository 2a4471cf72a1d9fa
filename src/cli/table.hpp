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

/// Columns that a text takes.
[[nodiscard]] std::size_t columns(std::string_view text);

}  // namespace lynearm::cli
