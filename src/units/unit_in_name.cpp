#include "units/unit_in_name.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>
#include <system_error>

namespace lynearm::units {
namespace {

constexpr std::string_view too_large = ", of a size that can be held";

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::string_view trimmed(std::string_view text) {
  const auto is_space = [](char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; };
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

// "L_per_min" as the tables of units spell it: "L/min".
std::string spelt(std::string_view word) {
  constexpr std::string_view per = "_per_";
  std::string text;
  while (!word.empty()) {
    const bool divides = word.starts_with(per);
    text += divides ? '/' : word.front() == '_' ? ' ' : word.front();
    word.remove_prefix(divides ? per.size() : 1);
  }
  return text;
}

Parsed<double> refused(std::string_view stated_by, std::string_view why) {
  return {std::nullopt,
          fmt::format("a number without unit, which the {} states{}", stated_by, why)};
}

}  // namespace

bool same_word(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return lower(x) == lower(y); });
}

std::optional<std::string_view> unit_behind(std::string_view name, std::string_view head) {
  if (!same_word(head.substr(0, name.size()), name)) return std::nullopt;
  head.remove_prefix(name.size());
  if (head.empty()) return head;
  if (head.front() != '_' || head.size() == 1) return std::nullopt;
  return head.substr(1);
}

const Unit* unit_in_name(std::string_view word, const Kind& kind) {
  const std::string wanted = spelt(word);
  for (const Unit& unit : kind.units) {
    for (std::string_view names = unit.names; !names.empty();) {
      const std::size_t bar = std::min(names.find('|'), names.size());
      if (same_word(names.substr(0, bar), wanted)) return &unit;
      names.remove_prefix(std::min(bar + 1, names.size()));
    }
  }
  return nullptr;
}

Parsed<double> bare_number(std::string_view text, const Unit& unit,
                           std::string_view stated_by) {
  text = trimmed(text);
  const bool negative = text.starts_with('-');
  if (negative || text.starts_with('+')) text.remove_prefix(1);
  // Keeps the words for infinity and not-a-number from from_chars.
  if (text.empty() || !((text[0] >= '0' && text[0] <= '9') || text[0] == '.')) {
    return refused(stated_by, "");
  }
  double value = 0.0;
  const char* const last = text.data() + text.size();
  const auto [end, error] = std::from_chars(text.data(), last, value);
  if (error == std::errc::result_out_of_range) return refused(stated_by, too_large);
  if (error != std::errc{}) return refused(stated_by, "");
  if (end != last) {
    return refused(
        stated_by,
        *end == ',' ? ", with a point as decimal mark and no separator of thousands" : "");
  }
  return bare_number(negative ? -value : value, unit, stated_by);
}

Parsed<double> bare_number(double figure, const Unit& unit, std::string_view stated_by) {
  const double base = unit.to_base(figure);
  if (!std::isfinite(base)) return refused(stated_by, too_large);
  return {base, {}};
}

}  // namespace lynearm::units
