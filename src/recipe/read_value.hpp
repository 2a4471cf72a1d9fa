// Values of a recipe or a kit that are more than one plain quantity, each with the Field by
// which the reader takes it: a strength in any scale, a lot of spirit, a border in a spirit
// run, a price by a certain unit, names out of the engine's tables.
//
// A stand-in after a mistake is the type's empty value, so that a function can tell it.
#pragma once

#include <compare>
#include <optional>
#include <string>
#include <vector>

#include "plan/recipe.hpp"
#include "recipe/field.hpp"
#include "units/parse.hpp"

namespace lynearm::recipe {

/// A strength in the text, in any scale: "55 %vol", "47.2 %mass", "110 proof"; turned into one
/// by volume at 20 °C by spirit/stated.hpp.
struct Strength {
  units::VolumeStrength by_volume;

  friend auto operator<=>(const Strength&, const Strength&) = default;
};
template <>
struct Field<Strength> {
  static units::Parsed<Strength> read(const Node& node);
  static std::string show(Strength value) { return units::concise(value.by_volume); }
  static void describe(Description& note);
};

/// "2.5 L @ 32 %vol"; a volume of zero is refused, for then there is no lot.
template <>
struct Field<plan::SpiritLot> {
  static units::Parsed<plan::SpiritLot> read(const Node& node);
  static std::string show(const plan::SpiritLot& value);
  static void describe(Description& note);
};

/// "150 mL" collected, "58 %vol" at the spout or "94 °C" in the head.
template <>
struct Field<plan::Border> {
  static units::Parsed<plan::Border> read(const Node& node);
  static std::string show(const plan::Border& value);
  static void describe(Description& note);
};

/// "for the time", or a whole number of staves.
template <>
struct Field<plan::Staves> {
  static units::Parsed<plan::Staves> read(const Node& node);
  static std::string show(const plan::Staves& value);
  static void describe(Description& note);
};

/// An id of the table of ingredients; empty after a mistake.
struct IngredientId {
  std::string id;
};
template <>
struct Field<IngredientId> {
  static units::Parsed<IngredientId> read(const Node& node);
  static std::string show(const IngredientId& value) { return value.id; }
  static void describe(Description& note);
};

template <>
struct Field<plan::Use> {
  static units::Parsed<plan::Use> read(const Node& node);
  static std::string show(plan::Use value);
  static void describe(Description& note);
};

/// A price by one certain unit.
template <units::PricedBy By>
struct PriceBy {
  double amount = 0.0;
};

/// Beyond any currency; sums of such prices can still be printed.
inline constexpr double most_price = 1e9;

/// The untyped kernels of Field<PriceBy>.
[[nodiscard]] units::Parsed<double> read_price(const Node& node, units::PricedBy by);
void describe_price(Description& note, units::PricedBy by);

template <units::PricedBy By>
struct Field<PriceBy<By>> {
  static units::Parsed<PriceBy<By>> read(const Node& node) {
    units::Parsed<double> price = read_price(node, By);
    if (!price) return {std::nullopt, std::move(price.accepted)};
    if (*price.value > most_price) {
      return {std::nullopt, "a price of at most a thousand million"};
    }
    return {PriceBy<By>{*price.value}, {}};
  }
  static std::string show(const PriceBy<By>& value) {
    return units::print(units::Price{value.amount, By});
  }
  static void describe(Description& note) { describe_price(note, By); }
};

}  // namespace lynearm::recipe
