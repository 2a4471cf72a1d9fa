// What the text of a quantity may be: for each kind its noun, its examples and its table of
// units. Parsing, printing, messages, help and the reference pages all take their words from
// here, so that they cannot disagree.
//
// Factors are the exact definitions (yard and pound agreement of 1959, US gallon of 231 cubic
// inches, International Table BTU). "gal", "qt", "fl oz" are always the United States measures.
// Of imperial measures only the gallon, by its whole name: the words of the others would mean
// two things.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <type_traits>

#include "units/quantity.hpp"

namespace lynearm::units {

/// Which units figures are printed in.
enum class System { metric, us, both };

/// When a unit is chosen for printing.
enum class Shown {
  never,   ///< read, but not printed
  metric,  ///< in metric
  us,      ///< in US customary
  always,  ///< in either
};

/// One unit of a kind: base value = (figure - origin) * factor + point.
struct Unit {
  std::string_view names;  ///< accepted spellings, parted by '|'; the first one is printed
  double factor = 1.0;
  Shown shown = Shown::never;
  int decimals = 2;         ///< printed decimals of a figure below ten
  bool fewer_above = true;  ///< one decimal fewer from ten, two fewer from a thousand
  double origin = 0.0;
  double point = 0.0;

  [[nodiscard]] constexpr double to_base(double figure) const {
    return (figure - origin) * factor + point;
  }
  [[nodiscard]] constexpr double from_base(double base) const {
    return (base - point) / factor + origin;
  }
  /// The first spelling.
  [[nodiscard]] std::string_view name() const { return names.substr(0, names.find('|')); }
  /// Whether `word` is one of the spellings.
  [[nodiscard]] bool answers_to(std::string_view word) const;
};

/// A kind of quantity as it stands in text.
struct Kind {
  std::string_view noun;      ///< "mass"
  std::string_view article;   ///< "a"
  std::string_view examples;  ///< "\"4.5 kg\" or \"12 lb\""
  std::span<const Unit> units;
  bool sums = false;  ///< "5 lb 4 oz" is read as a sum, each unit smaller than the one before
  bool bare = false;  ///< a number without unit is read, in the first unit

  /// `a mass such as "4.5 kg" or "12 lb"`.
  [[nodiscard]] std::string phrase() const;
  /// The unit that answers to `word`, or nullptr.
  [[nodiscard]] const Unit* find(std::string_view word) const;
};

/// The kind of the quantity type Q.
template <class Q>
const Kind& kind();

template <>
const Kind& kind<Mass>();
template <>
const Kind& kind<Volume>();
template <>
const Kind& kind<Duration>();
template <>
const Kind& kind<Temperature>();
template <>
const Kind& kind<TemperatureChange>();
template <>
const Kind& kind<Pressure>();
template <>
const Kind& kind<Power>();
template <>
const Kind& kind<Energy>();
template <>
const Kind& kind<Length>();
template <>
const Kind& kind<Area>();
template <>
const Kind& kind<AreaPerVolume>();
template <>
const Kind& kind<Density>();
template <>
const Kind& kind<MassConcentration>();
template <>
const Kind& kind<VolumeFlow>();
template <>
const Kind& kind<HeatLoss>();
template <>
const Kind& kind<HeatCapacity>();
template <>
const Kind& kind<Share>();
template <>
const Kind& kind<MassFraction>();
template <>
const Kind& kind<MoleFraction>();
template <>
const Kind& kind<VolumeStrength>();
template <>
const Kind& kind<DiastaticPower>();
template <>
const Kind& kind<Plato>();
template <>
const Kind& kind<SpecificGravity>();
template <>
const Kind& kind<RefractiveIndex>();

/// Every kind, in the order of quantity.hpp.
[[nodiscard]] std::span<const Kind* const> kinds();

/// A quantity type that can be read from and written to text.
template <class Q>
concept Textual = requires {
  kind<Q>();
};

/// The value in the base unit of its kind (kelvin for a temperature).
template <class Q>
constexpr double base_value(Q q) {
  return q / Q::raw(1.0);
}
constexpr double base_value(Temperature t) { return t.kelvins(); }

/// Inverse of base_value().
template <class Q>
constexpr Q from_base_value(double base) {
  if constexpr (std::is_same_v<Q, Temperature>) {
    return Temperature::kelvins(base);
  } else {
    return Q::raw(base);
  }
}

/// The type of a difference of two Q.
template <class Q>
using Change = decltype(Q{} - Q{});

}  // namespace lynearm::units
