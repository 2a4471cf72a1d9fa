#include "recipe/read_value.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "mash/ingredient.hpp"
#include "spirit/stated.hpp"

namespace lynearm::recipe {
namespace {

using units::Parsed;

// What a run can come to; beyond it a border is a slip of the pen.
constexpr units::Volume least_collected = units::Volume::millilitres(1.0);
constexpr units::Volume most_collected = units::Volume::litres(500.0);
constexpr Strength weakest_spout{units::VolumeStrength::percent(0.5)};
constexpr Strength strongest_spout{units::VolumeStrength::percent(96.0)};
constexpr units::Temperature coolest_head = units::Temperature::celsius(60.0);
constexpr units::Temperature hottest_head = units::Temperature::celsius(105.0);

constexpr std::string_view border_phrase =
    R"(a volume collected such as "150 mL" (1 mL to 500 L), a strength at the spout such as "58 %vol" (0.5 to 96 %vol) or a head temperature such as "94 °C" (60 to 105 °C))";
constexpr std::string_view lot_phrase = R"(a volume and its strength such as "5 L @ 55 %vol")";
constexpr std::string_view staves_phrase =
    R"("for the time", or a whole number of staves from 1 to 1000, written without quotes)";
constexpr int most_staves = 1000;

std::string one_of(const std::vector<std::string>& names) {
  return fmt::format("one of \"{}\"", fmt::join(names, "\", \""));
}

// The place of the name that stands there among `names`.
Parsed<std::size_t> read_name(const Node& node, const std::vector<std::string>& names) {
  if (node.type == Node::Type::text) {
    const auto found = std::find(names.begin(), names.end(), node.entered);
    if (found != names.end()) return {static_cast<std::size_t>(found - names.begin()), {}};
  }
  std::string accepted = one_of(names);
  const std::string nearest = base::nearest_name(node.entered, names);
  if (!nearest.empty()) accepted += fmt::format(" (\"{}\" is the nearest)", nearest);
  return {std::nullopt, std::move(accepted)};
}

void describe_names(Description& note, std::vector<std::string> names) {
  note.shape = Shape::choice;
  note.kind = "one of";
  note.accepted = one_of(names);
  note.choices = std::move(names);
}

const std::vector<std::string>& uses() {
  // In the order of plan::Use.
  static const std::vector<std::string> names = {"cook", "dough-in", "boil", "ferment"};
  return names;
}

// Patterns for the schema, put together from those of the kinds (field.cpp), which are
// "^\s*", the quantity, "\s*$".
std::string quantity_pattern(const units::Kind& kind) {
  constexpr std::size_t anchor = 4;
  Description note;
  describe_kind(note, kind);
  return note.pattern.substr(anchor, note.pattern.size() - 2 * anchor);
}
constexpr std::string_view figure_pattern =
    R"((?:[-+]|−)?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)";

std::string strength_pattern() {
  constexpr std::string_view reference =
      R"((?:\s*(?:at\s*)?(?:(?:20|15|15\.56)\s*(?:°\s*)?C|60\s*(?:°\s*)?F))?)";
  return fmt::format(R"((?:{}{}|{}|{}\s*(?:°)?proof))",
                     quantity_pattern(units::kind<units::VolumeStrength>()), reference,
                     quantity_pattern(units::kind<units::MassFraction>()), figure_pattern);
}

std::string price_pattern(units::PricedBy by) {
  const units::Kind* kind = nullptr;
  switch (by) {
    case units::PricedBy::kilogram:
      kind = &units::kind<units::Mass>();
      break;
    case units::PricedBy::litre:
      kind = &units::kind<units::Volume>();
      break;
    case units::PricedBy::kilowatt_hour:
      kind = &units::kind<units::Energy>();
      break;
    case units::PricedBy::piece:
      return fmt::format(R"(^\s*{}\s*(?:each|(?:/|per )\s*piece)\s*$)", figure_pattern);
  }
  std::string names;
  for (const units::Unit& unit : kind->units) {
    for (const char c : unit.names) names += c == '.' ? "\\." : std::string(1, c);
    names += '|';
  }
  names.pop_back();
  return fmt::format(R"(^\s*{}\s*(?:/|per )\s*(?:{})\s*$)", figure_pattern, names);
}

struct PriceWords {
  std::string_view kind, example;
};
PriceWords price_words(units::PricedBy by) {
  switch (by) {
    case units::PricedBy::kilogram:
      return {"by mass", R"("1.20 / kg" or "0.55 / lb")"};
    case units::PricedBy::litre:
      return {"by volume", R"("0.004 / L" or "4 / m3")"};
    case units::PricedBy::kilowatt_hour:
      return {"by energy", R"("0.28 / kWh")"};
    case units::PricedBy::piece:
      return {"by the piece", R"("0.90 each")"};
  }
  return {};
}
std::string price_phrase(units::PricedBy by) {
  const PriceWords words = price_words(by);
  return fmt::format("a price {} such as {}, without currency", words.kind, words.example);
}

void describe_words(Description& note, std::string_view kind, std::string_view phrase) {
  note.shape = Shape::quantity;
  note.kind = kind;
  note.accepted = phrase;
}

}  // namespace

Parsed<Strength> Field<Strength>::read(const Node& node) {
  Parsed<units::StatedStrength> stated = Field<units::StatedStrength>::read(node);
  if (!stated) return {std::nullopt, std::move(stated.accepted)};
  return {Strength{spirit::volume_strength(*stated.value)}, {}};
}
void Field<Strength>::describe(Description& note) {
  Field<units::StatedStrength>::describe(note);
  note.pattern = fmt::format(R"(^\s*{}\s*$)", strength_pattern());
}

Parsed<plan::SpiritLot> Field<plan::SpiritLot>::read(const Node& node) {
  if (node.type != Node::Type::text) {
    return {std::nullopt, fmt::format("{}, in quotes", lot_phrase)};
  }
  Parsed<units::StatedLot> stated = units::try_parse<units::StatedLot>(node.entered);
  if (!stated) return {std::nullopt, std::move(stated.accepted)};
  if (stated.value->volume <= units::Volume{} || stated.value->volume > most_collected) {
    return {std::nullopt,
            fmt::format("{}, the volume above 0 L and at most 500 L", lot_phrase)};
  }
  return {
      plan::SpiritLot{stated.value->volume, spirit::volume_strength(stated.value->strength)},
      {}};
}
std::string Field<plan::SpiritLot>::show(const plan::SpiritLot& value) {
  return fmt::format("{} @ {}", units::concise(value.volume), units::concise(value.strength));
}
void Field<plan::SpiritLot>::describe(Description& note) {
  describe_words(note, "volume @ strength", lot_phrase);
  note.pattern =
      fmt::format(R"(^\s*{}\s*(?:@|at\s)\s*{}\s*$)",
                  quantity_pattern(units::kind<units::Volume>()), strength_pattern());
}

Parsed<plan::Border> Field<plan::Border>::read(const Node& node) {
  const Parsed<plan::Border> refused{std::nullopt, std::string(border_phrase)};
  if (node.type != Node::Type::text) return refused;
  if (const auto volume = units::try_parse<units::Volume>(node.entered)) {
    if (*volume.value < least_collected || *volume.value > most_collected) return refused;
    return {*volume.value, {}};
  }
  if (const auto stated = units::try_parse<units::StatedStrength>(node.entered)) {
    const Strength strength{spirit::volume_strength(*stated.value)};
    if (strength < weakest_spout || strongest_spout < strength) return refused;
    return {strength.by_volume, {}};
  }
  if (const auto head = units::try_parse<units::Temperature>(node.entered)) {
    if (*head.value < coolest_head || *head.value > hottest_head) return refused;
    return {*head.value, {}};
  }
  return refused;
}
std::string Field<plan::Border>::show(const plan::Border& value) {
  return std::visit([](auto place) { return units::concise(place); }, value);
}
void Field<plan::Border>::describe(Description& note) {
  describe_words(note, "volume, strength or head temperature", border_phrase);
  note.pattern =
      fmt::format(R"(^\s*(?:{}|{}|{})\s*$)", quantity_pattern(units::kind<units::Volume>()),
                  strength_pattern(), quantity_pattern(units::kind<units::Temperature>()));
}

Parsed<plan::Staves> Field<plan::Staves>::read(const Node& node) {
  if (node.type == Node::Type::text && node.entered == "for the time") {
    return {plan::Staves{}, {}};
  }
  const Parsed<int> count = Field<int>::read(node);
  if (count && *count.value >= 1 && *count.value <= most_staves) {
    return {plan::Staves{*count.value}, {}};
  }
  return {std::nullopt, std::string(staves_phrase)};
}
std::string Field<plan::Staves>::show(const plan::Staves& value) {
  return value.count ? fmt::format("{}", *value.count) : "for the time";
}
void Field<plan::Staves>::describe(Description& note) {
  describe_words(note, R"(`"for the time"` or whole number)", staves_phrase);
  note.bare = true;
  note.pattern = "^for the time$";
}

Parsed<IngredientId> Field<IngredientId>::read(const Node& node) {
  const std::vector<std::string> ids = mash::ingredient_ids();
  Parsed<std::size_t> found = read_name(node, ids);
  if (!found) return {std::nullopt, std::move(found.accepted)};
  return {IngredientId{ids[*found.value]}, {}};
}
void Field<IngredientId>::describe(Description& note) {
  describe_names(note, mash::ingredient_ids());
}

Parsed<plan::Use> Field<plan::Use>::read(const Node& node) {
  Parsed<std::size_t> found = read_name(node, uses());
  if (!found) return {std::nullopt, std::move(found.accepted)};
  return {static_cast<plan::Use>(*found.value), {}};
}
std::string Field<plan::Use>::show(plan::Use value) {
  return uses()[static_cast<std::size_t>(value)];
}
void Field<plan::Use>::describe(Description& note) { describe_names(note, uses()); }

Parsed<double> read_price(const Node& node, units::PricedBy by) {
  const Parsed<units::Price> price = Field<units::Price>::read(node);
  if (price && price.value->by == by) return {price.value->amount, {}};
  return {std::nullopt, price_phrase(by)};
}
void describe_price(Description& note, units::PricedBy by) {
  describe_words(note, fmt::format("price {}", price_words(by).kind), price_phrase(by));
  note.pattern = price_pattern(by);
}

}  // namespace lynearm::recipe
