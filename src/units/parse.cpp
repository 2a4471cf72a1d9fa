#include "units/parse.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <system_error>

namespace lynearm::units {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

// Typographic spaces, minus, squares and the ordinal sign some keyboards have for a degree,
// turned into the plain ones of the unit tables.
std::string plain(std::string_view text) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 7> plainer{{
      {"\u00A0", " "},
      {"\u202F", " "},
      {"\u2009", " "},
      {"\u2212", "-"},
      {"\u00B2", "2"},
      {"\u00B3", "3"},
      {"\u00BA", "\u00B0"},
  }};
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    bool replaced = false;
    for (const auto& [from, to] : plainer) {
      if (text.substr(i).starts_with(from)) {
        out += to;
        i += from.size();
        replaced = true;
        break;
      }
    }
    if (!replaced) out += text[i++];
  }
  return std::string(trimmed(out));
}

struct Figure {
  double value = 0.0;
  std::string_view rest;  ///< what follows, trimmed
  std::string fault;      ///< empty when it was read
};

// A decimal figure at the start of `text`. The checks before from_chars keep its words for
// infinities and not-a-number out.
Figure figure(std::string_view text) {
  std::string_view digits = text;
  const bool negative = digits.starts_with('-');
  if (negative || digits.starts_with('+')) digits.remove_prefix(1);
  const bool begins =
      !digits.empty() &&
      (is_digit(digits[0]) || (digits.size() > 1 && digits[0] == '.' && is_digit(digits[1])));
  if (!begins) return {0.0, {}, "no figure"};
  double value = 0.0;
  const auto [end, error] =
      std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (error != std::errc{} || !std::isfinite(value))
    return {0.0, {}, ", of a size that can be held"};
  const std::string_view rest = digits.substr(static_cast<std::size_t>(end - digits.data()));
  const std::string_view after = trimmed(rest);
  const bool separator = !rest.empty() && (rest[0] == ',' || rest[0] == '\'' || rest[0] == '_');
  const bool second_figure = !after.empty() && (is_digit(after[0]) || after[0] == '.');
  if (separator || second_figure) {
    return {0.0, {}, ", with a point as decimal mark and no separator of thousands"};
  }
  return {negative ? -value : value, after, {}};
}

std::string unit_list(const Kind& kind) {
  std::string list;
  for (const Unit& unit : kind.units) {
    if (!list.empty()) list += ", ";
    list += unit.name();
  }
  return list;
}

// Why `word` is not a unit of `kind`, fitted behind its phrase.
std::string not_a_unit(std::string_view word, const Kind& kind) {
  for (const Kind* other : kinds()) {
    if (other != &kind && other->find(word) != nullptr && !word.empty()) {
      return fmt::format(R"({} ("{}" is a unit of {}))", kind.phrase(), word, other->noun);
    }
  }
  if (kind.bare) return kind.phrase();
  return fmt::format("{} (units: {})", kind.phrase(), unit_list(kind));
}

std::string with_unit(const Kind& kind) {
  return fmt::format("{} {} with its unit, such as {}", kind.article, kind.noun, kind.examples);
}

// The longest spelling of a unit of `kind` that `text` starts with and that ends there as a
// word does. Writes its length.
const Unit* leading_unit(std::string_view text, const Kind& kind, std::size_t& length) {
  const Unit* best = nullptr;
  length = 0;
  for (const Unit& unit : kind.units) {
    std::string_view names = unit.names;
    while (!names.empty()) {
      const std::size_t bar = names.find('|');
      const std::string_view name = names.substr(0, bar);
      names = bar == std::string_view::npos ? std::string_view{} : names.substr(bar + 1);
      if (name.size() <= length || !text.starts_with(name)) continue;
      const std::string_view next = text.substr(name.size());
      if (!next.empty() && !is_space(next[0]) && !is_digit(next[0])) continue;
      best = &unit;
      length = name.size();
    }
  }
  return best;
}

Parsed<double> refused(std::string accepted) { return {std::nullopt, std::move(accepted)}; }

// "5 lb 4 oz": the first figure is read; `rest` is "lb 4 oz".
Parsed<double> sum(double first, std::string_view rest, const Kind& kind) {
  const bool negative = std::signbit(first);
  double total = 0.0;
  double last_factor = HUGE_VAL;
  double value = std::abs(first);
  while (true) {
    std::size_t length = 0;
    const Unit* unit = leading_unit(rest, kind, length);
    if (unit == nullptr) {
      if (rest.empty()) return refused(with_unit(kind));
      return refused(not_a_unit(rest, kind));
    }
    if (unit->factor >= last_factor) {
      return refused(kind.phrase() + ", in a sum each unit smaller than the one before");
    }
    last_factor = unit->factor;
    total += unit->to_base(value);
    rest = trimmed(rest.substr(length));
    if (rest.empty()) return {negative ? -total : total, {}};
    if (!is_digit(rest[0]) && rest[0] != '.') return refused(not_a_unit(rest, kind));
    const Figure next = figure(rest);
    if (!next.fault.empty()) return refused(kind.phrase() + next.fault);
    value = next.value;
    rest = next.rest;
  }
}

Parsed<double> parse_plain(std::string_view text, const Kind& kind) {
  const Figure number = figure(text);
  if (number.fault == "no figure") return refused(kind.phrase());
  if (!number.fault.empty()) return refused(kind.phrase() + number.fault);
  Parsed<double> result;
  if (number.rest.empty()) {
    if (!kind.bare) return refused(with_unit(kind));
    result.value = kind.units.front().to_base(number.value);
  } else if (const Unit* unit = kind.find(number.rest)) {
    result.value = unit->to_base(number.value);
  } else {
    bool elsewhere = false;
    for (const Kind* other : kinds())
      elsewhere = elsewhere || other->find(number.rest) != nullptr;
    if (elsewhere || !kind.sums) return refused(not_a_unit(number.rest, kind));
    result = sum(number.value, number.rest, kind);
  }
  if (result && !std::isfinite(*result.value)) {
    return refused(kind.phrase() + ", of a size that can be held");
  }
  return result;
}

constexpr std::string_view strength_phrase =
    R"(a strength such as "55 %vol", "47.2 %mass" or "110 proof")";
constexpr std::string_view part_phrase =
    R"(an amount and its strength such as "1.2 L @ 74 %vol", "1.2 L @ 74 %vol, 27 °C" or )"
    R"("940 g @ 120 proof")";
constexpr std::string_view lot_phrase = R"(a volume and its strength such as "5 L @ 55 %vol")";
constexpr std::string_view price_phrase =
    R"(a price such as "1.20 / kg", "3 / L", "0.28 / kWh" or "0.9 each", without currency)";

// "%vol at 60 F": the scale, with its reference temperature cut off the end of `unit`. A
// temperature that no scale has its reference at is left standing, and so refused as a unit.
StrengthScale reference_of(std::string_view& unit) {
  struct Reference {
    std::string_view figure, degree;
    StrengthScale scale;
  };
  constexpr std::array<Reference, 4> references{
      {{"20", "C", StrengthScale::percent_by_volume},
       {"15", "C", StrengthScale::percent_by_volume_15C},
       {"15.56", "C", StrengthScale::percent_by_volume_60F},
       {"60", "F", StrengthScale::percent_by_volume_60F}}};
  const auto without = [](std::string_view text, std::string_view end) {
    if (!text.ends_with(end)) return std::string_view{};
    text.remove_suffix(end.size());
    return trimmed(text);
  };
  for (const Reference& reference : references) {
    std::string_view rest = without(unit, reference.degree);
    if (const std::string_view cut = without(rest, "°"); !cut.empty()) rest = cut;
    rest = without(rest, reference.figure);
    if (const std::string_view cut = without(rest, " at"); !cut.empty()) rest = cut;
    if (kind<VolumeStrength>().find(rest) == nullptr) continue;
    unit = rest;
    return reference.scale;
  }
  return StrengthScale::percent_by_volume;
}

struct Split {
  std::string_view before, after;
  bool found = false;
};

Split split_at(std::string_view text, std::initializer_list<std::string_view> marks) {
  for (const std::string_view mark : marks) {
    const std::size_t at = text.find(mark);
    if (at == std::string_view::npos) continue;
    return {trimmed(text.substr(0, at)), trimmed(text.substr(at + mark.size())), true};
  }
  return {text, {}, false};
}

}  // namespace

Parsed<double> parse_base_value(std::string_view text, const Kind& kind) {
  return parse_plain(plain(text), kind);
}

template <>
Parsed<StatedStrength> try_parse<StatedStrength>(std::string_view text) {
  const std::string clean = plain(text);
  const auto refuse = [](std::string_view why) {
    return Parsed<StatedStrength>{std::nullopt, fmt::format("{}{}", strength_phrase, why)};
  };
  Figure number = figure(clean);
  if (number.fault == "no figure") return refuse("");
  if (!number.fault.empty()) return refuse(number.fault);
  StatedStrength strength{number.value, reference_of(number.rest)};
  if (number.rest == "proof" || number.rest == "°proof") {
    strength.scale = StrengthScale::us_proof;
  } else if (kind<MassFraction>().find(number.rest) != nullptr) {
    strength.scale = StrengthScale::percent_by_mass;
  } else if (kind<VolumeStrength>().find(number.rest) == nullptr) {
    if (number.rest == "%")
      return refuse(R"( ("%" does not say whether by volume or by mass))");
    if (number.rest.empty()) return refuse(", with its scale");
    return refuse("");
  }
  const double most = strength.scale == StrengthScale::us_proof ? 200.0 : 100.0;
  if (number.value < 0.0 || number.value > most) {
    return refuse(strength.scale == StrengthScale::us_proof ? ", from 0 to 200 proof"
                                                            : ", from 0 to 100 %");
  }
  return {strength, {}};
}

template <>
Parsed<StatedLot> try_parse<StatedLot>(std::string_view text) {
  const std::string clean = plain(text);
  const auto refuse = [](const std::string& why) {
    return Parsed<StatedLot>{std::nullopt, fmt::format("{}{}", lot_phrase, why)};
  };
  const Split parts = split_at(clean, {"@", " at "});
  if (!parts.found) return refuse("");
  const Parsed<Volume> volume = try_parse<Volume>(parts.before);
  if (!volume) return refuse("; before the @ " + volume.accepted);
  if (*volume.value < Volume{}) return refuse(", the volume zero or more");
  const Parsed<StatedStrength> strength = try_parse<StatedStrength>(parts.after);
  if (!strength) return refuse("; after the @ " + strength.accepted);
  return {StatedLot{*volume.value, *strength.value}, {}};
}

template <>
Parsed<StatedPart> try_parse<StatedPart>(std::string_view text) {
  const std::string clean = plain(text);
  const auto refuse = [](const std::string& why) {
    return Parsed<StatedPart>{std::nullopt, fmt::format("{}{}", part_phrase, why)};
  };
  const Split parts = split_at(clean, {"@", " at "});
  if (!parts.found) return refuse("");
  StatedPart part;
  if (const Parsed<Mass> mass = try_parse<Mass>(parts.before)) {
    if (*mass.value < Mass{}) return refuse(", the amount zero or more");
    part.amount = *mass.value;
  } else {
    const Parsed<Volume> volume = try_parse<Volume>(parts.before);
    if (!volume) return refuse("; before the @ " + volume.accepted);
    if (*volume.value < Volume{}) return refuse(", the amount zero or more");
    part.amount = *volume.value;
  }
  // A comma before a digit is no temperature but a decimal comma: left to be refused as one.
  const std::size_t comma = parts.after.rfind(", ");
  const Parsed<StatedStrength> strength =
      try_parse<StatedStrength>(parts.after.substr(0, comma));
  if (!strength) return refuse("; after the @ " + strength.accepted);
  part.strength = *strength.value;
  if (comma != std::string_view::npos) {
    const Parsed<Temperature> at = try_parse<Temperature>(parts.after.substr(comma + 1));
    if (!at) return refuse("; after the comma " + at.accepted);
    part.at = *at.value;
  }
  return {part, {}};
}

template <>
Parsed<Price> try_parse<Price>(std::string_view text) {
  const std::string clean = plain(text);
  const auto refuse = [](std::string_view why) {
    return Parsed<Price>{std::nullopt, fmt::format("{}{}", price_phrase, why)};
  };
  const Figure number = figure(clean);
  if (number.fault == "no figure") return refuse("");
  if (!number.fault.empty()) return refuse(number.fault);
  if (number.value < 0.0) return refuse(", zero or more");
  if (number.rest == "each") return {Price{number.value, PricedBy::piece}, {}};
  std::string_view by = number.rest;
  if (by.starts_with('/')) {
    by.remove_prefix(1);
  } else if (by.starts_with("per ")) {
    by.remove_prefix(4);
  } else {
    return refuse("");
  }
  by = trimmed(by);
  if (by == "piece") return {Price{number.value, PricedBy::piece}, {}};
  if (const Unit* unit = kind<Mass>().find(by)) {
    return {Price{number.value / unit->factor, PricedBy::kilogram}, {}};
  }
  if (const Unit* unit = kind<Volume>().find(by)) {
    return {Price{number.value / unit->factor, PricedBy::litre}, {}};
  }
  if (const Unit* unit = kind<Energy>().find(by)) {
    const double kilowatt_hours = unit->factor / kind<Energy>().find("kWh")->factor;
    return {Price{number.value / kilowatt_hours, PricedBy::kilowatt_hour}, {}};
  }
  return refuse("");
}

Parsed<std::pair<double, std::optional<double>>> parse_base_spread(std::string_view text,
                                                                   const Kind& kind,
                                                                   const Kind& change) {
  const std::string clean = plain(text);
  const auto refuse = [](std::string accepted) {
    return Parsed<std::pair<double, std::optional<double>>>{std::nullopt, std::move(accepted)};
  };
  const Split parts = split_at(clean, {"+/-", "±", "+-"});
  if (!parts.found) {
    const Parsed<double> value = parse_plain(clean, kind);
    if (!value) return refuse(value.accepted + ", with or without a spread behind \"+/-\"");
    return {std::pair{*value.value, std::optional<double>{}}, {}};
  }
  // "75 ± 4 %": one unit for both.
  std::string before(parts.before);
  if (const Figure first = figure(before);
      first.fault.empty() && first.rest.empty() && !kind.bare) {
    const Figure second = figure(parts.after);
    if (second.fault.empty() && kind.find(second.rest) != nullptr) {
      before += ' ';
      before += second.rest;
    }
  }
  const Parsed<double> median = parse_plain(before, kind);
  if (!median) return refuse(median.accepted + " before the \"+/-\"");
  const Parsed<double> half = parse_plain(parts.after, change);
  if (!half) return refuse(half.accepted + " behind the \"+/-\"");
  if (*half.value < 0.0) return refuse("a spread of zero or more behind the \"+/-\"");
  return {std::pair{*median.value, std::optional<double>{*half.value}}, {}};
}

}  // namespace lynearm::units
