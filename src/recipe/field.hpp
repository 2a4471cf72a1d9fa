// How one value of a type stands in a TOML text: read from a node, shown in messages, described
// for the schema. Quantities are strings with a unit; only a kind without unit (a gravity) may
// also be a bare number. A type that a recipe reads needs a Field and nothing else.
#pragma once

#include <cmath>
#include <concepts>
#include <limits>
#include <optional>
#include <string>

#include "recipe/description.hpp"
#include "recipe/document.hpp"
#include "units/kind.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

namespace lynearm::recipe {

/// The untyped kernels of Field<Q> and Section::spread().
[[nodiscard]] units::Parsed<double> read_base_value(const Node& node, const units::Kind& kind);
void describe_kind(Description& note, const units::Kind& kind);
void describe_spread(Description& note, const units::Kind& kind, const units::Kind& change);
/// `accepted` for a bare number where a quoted text of a quantity is needed.
[[nodiscard]] std::string in_quotes(const units::Kind& kind);

/// How a T stands in the text. Specialised below.
template <class T>
struct Field;

template <class Q>
requires units::Textual<Q> &&(!std::same_as<Q, double>)struct Field<Q> {
  static units::Parsed<Q> read(const Node& node) {
    units::Parsed<double> base = read_base_value(node, units::kind<Q>());
    if (!base) return {std::nullopt, std::move(base.accepted)};
    return {units::from_base_value<Q>(*base.value), {}};
  }
  static std::string show(Q value) { return units::concise(value); }
  static void describe(Description& note) { describe_kind(note, units::kind<Q>()); }
};

template <>
struct Field<double> {
  static units::Parsed<double> read(const Node& node);
  static std::string show(double value);
  static void describe(Description& note);
};

template <>
struct Field<int> {
  static units::Parsed<int> read(const Node& node);
  static std::string show(int value);
  static void describe(Description& note);
};

template <>
struct Field<bool> {
  static units::Parsed<bool> read(const Node& node);
  static std::string show(bool value) { return value ? "true" : "false"; }
  static void describe(Description& note);
};

/// One line of text, not empty, without control characters, at most 200 bytes.
template <>
struct Field<std::string> {
  static units::Parsed<std::string> read(const Node& node);
  static std::string show(const std::string& value) { return value; }
  static void describe(Description& note);
};

template <>
struct Field<units::StatedStrength> {
  static units::Parsed<units::StatedStrength> read(const Node& node);
  static std::string show(const units::StatedStrength& value) { return units::print(value); }
  static void describe(Description& note);
};

template <>
struct Field<units::Price> {
  static units::Parsed<units::Price> read(const Node& node);
  static std::string show(const units::Price& value) { return units::print(value); }
  static void describe(Description& note);
};

/// Limits of a value, both inclusive; either may be absent.
template <class T>
struct Range {
  std::optional<T> low;
  std::optional<T> high;

  [[nodiscard]] bool holds(const T& value) const {
    if constexpr (std::totally_ordered<T>) {
      return !(low && value < *low) && !(high && *high < value);
    }
    return true;
  }
  /// "from 0 °C to 100 °C", "0 kg or more", "at most 5 L", or "".
  [[nodiscard]] std::string words() const {
    if (low && high) return "from " + Field<T>::show(*low) + " to " + Field<T>::show(*high);
    if (low) return Field<T>::show(*low) + " or more";
    if (high) return "at most " + Field<T>::show(*high);
    return {};
  }
};

template <class T>
[[nodiscard]] Range<T> between(T low, T high) {
  return {low, high};
}
template <class T>
[[nodiscard]] Range<T> at_least(T low) {
  return {low, std::nullopt};
}
template <class T>
[[nodiscard]] Range<T> at_most(T high) {
  return {std::nullopt, high};
}

}  // namespace lynearm::recipe
