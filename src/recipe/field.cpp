#include "recipe/field.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace lynearm::recipe {
namespace {

constexpr std::string_view number_pattern =
    R"((?:[-+]|−)?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)";

// The spellings of a kind's units as an alternative of a regular expression.
std::string units_pattern(const units::Kind& kind) {
  std::string out = "(?:";
  for (std::size_t i = 0; i < kind.units.size(); ++i) {
    if (i > 0) out += '|';
    for (const char c : kind.units[i].names) {
      switch (c) {
        case '.':
          out += "\\.";
          break;
        case '2':
          out += "(?:2|²)";
          break;
        case '3':
          out += "(?:3|³)";
          break;
        default:
          out += c;
      }
    }
  }
  return out + ")";
}

std::string quantity_pattern(const units::Kind& kind) {
  const std::string one =
      fmt::format(R"({}\s*{}{})", number_pattern, units_pattern(kind), kind.bare ? "?" : "");
  return kind.sums ? fmt::format(R"({0}(?:\s*{0})*)", one) : one;
}

constexpr std::string_view a_number = "a number, written without quotes";
constexpr std::string_view a_count = "a whole number, written without quotes";
constexpr std::string_view a_yes_no = "true or false, written without quotes";
constexpr std::string_view a_text = "one line of text in quotes, not empty, at most 200 bytes";

template <class T>
units::Parsed<T> read_text(const Node& node) {
  if (node.type == Node::Type::text) return units::try_parse<T>(node.entered);
  return {std::nullopt, units::try_parse<T>("").accepted + ", in quotes"};
}

template <class T>
void describe_text(Description& note, std::string_view kind) {
  note.shape = Shape::quantity;
  note.kind = kind;
  note.accepted = units::try_parse<T>("").accepted;
}

}  // namespace

std::string in_quotes(const units::Kind& kind) {
  return fmt::format("{} {} in quotes with its unit, such as {}", kind.article, kind.noun,
                     kind.examples);
}

units::Parsed<double> read_base_value(const Node& node, const units::Kind& kind) {
  const bool number = node.type == Node::Type::integer || node.type == Node::Type::real;
  if (node.type == Node::Type::text) return units::parse_base_value(node.entered, kind);
  if (number && kind.bare && std::isfinite(node.real)) {
    return {kind.units.front().to_base(node.real), {}};
  }
  if (kind.bare) return {std::nullopt, kind.phrase()};
  return {std::nullopt, in_quotes(kind)};
}

void describe_kind(Description& note, const units::Kind& kind) {
  note.shape = Shape::quantity;
  note.kind = kind.noun;
  note.accepted = kind.phrase();
  note.bare = kind.bare;
  note.pattern = fmt::format(R"(^\s*{}\s*$)", quantity_pattern(kind));
}

void describe_spread(Description& note, const units::Kind& kind, const units::Kind& change) {
  describe_kind(note, kind);
  note.kind = fmt::format("{}, may have a spread", kind.noun);
  note.accepted = fmt::format(R"({}, with or without a spread behind "+/-")", kind.phrase());
  // Before a spread the unit may be left to it: "75 +/- 4 %".
  note.pattern =
      fmt::format(R"(^\s*(?:{}|(?:{}|{})\s*(?:\+/-|±|\+-)\s*{})\s*$)", quantity_pattern(kind),
                  quantity_pattern(kind), number_pattern, quantity_pattern(change));
}

units::Parsed<double> Field<double>::read(const Node& node) {
  const bool number = node.type == Node::Type::integer || node.type == Node::Type::real;
  if (number && std::isfinite(node.real)) return {node.real, {}};
  return {std::nullopt, std::string(a_number)};
}
std::string Field<double>::show(double value) { return fmt::format("{:.6g}", value); }
void Field<double>::describe(Description& note) {
  note.shape = Shape::number;
  note.kind = "number";
  note.accepted = a_number;
}

units::Parsed<int> Field<int>::read(const Node& node) {
  if (node.type == Node::Type::integer && node.integer >= std::numeric_limits<int>::min() &&
      node.integer <= std::numeric_limits<int>::max()) {
    return {static_cast<int>(node.integer), {}};
  }
  return {std::nullopt, std::string(a_count)};
}
std::string Field<int>::show(int value) { return fmt::format("{}", value); }
void Field<int>::describe(Description& note) {
  note.shape = Shape::count;
  note.kind = "whole number";
  note.accepted = a_count;
}

units::Parsed<bool> Field<bool>::read(const Node& node) {
  if (node.type == Node::Type::boolean) return {node.boolean, {}};
  return {std::nullopt, std::string(a_yes_no)};
}
void Field<bool>::describe(Description& note) {
  note.shape = Shape::yes_no;
  note.kind = "`true` or `false`";
  note.accepted = a_yes_no;
}

units::Parsed<std::string> Field<std::string>::read(const Node& node) {
  constexpr std::size_t most_bytes = 200;
  const bool good =
      node.type == Node::Type::text && !node.entered.empty() &&
      node.entered.size() <= most_bytes &&
      std::none_of(node.entered.begin(), node.entered.end(), [](char c) {
        return static_cast<unsigned char>(c) < 0x20U || static_cast<unsigned char>(c) == 0x7FU;
      });
  if (good) return {node.entered, {}};
  return {std::nullopt, std::string(a_text)};
}
void Field<std::string>::describe(Description& note) {
  note.shape = Shape::text;
  note.kind = "text";
  note.accepted = a_text;
}

units::Parsed<units::StatedStrength> Field<units::StatedStrength>::read(const Node& node) {
  return read_text<units::StatedStrength>(node);
}
void Field<units::StatedStrength>::describe(Description& note) {
  describe_text<units::StatedStrength>(note, "strength");
}

units::Parsed<units::Price> Field<units::Price>::read(const Node& node) {
  return read_text<units::Price>(node);
}
void Field<units::Price>::describe(Description& note) {
  describe_text<units::Price>(note, "price");
}

}  // namespace lynearm::recipe
